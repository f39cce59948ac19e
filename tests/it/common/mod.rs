//! What more than one test begins with.

#[cfg(all(unix, not(target_os = "macos")))]
pub mod bus;
pub mod demo_unit;
pub mod example;
pub mod lesson_window;
pub mod nudge;
pub mod pdf;
pub mod plate_window;
pub mod program;
pub mod random_units;
pub mod reading_list;
#[cfg(all(unix, not(target_os = "macos")))]
pub mod screen;
pub mod shown;

use proptest::prelude::ProptestConfig;
use proptest::test_runner::RngSeed;

/// How many cases of chance a test tries, the same ones every time, so that a failure is that of the
/// change at hand; `PROPTEST_CASES` asks for another number, `PROPTEST_RNG_SEED` for others. What
/// fails is printed whole: there is no file of old failures to keep.
pub fn by_chance(cases: u32) -> ProptestConfig {
    let asked = std::env::var_os("PROPTEST_CASES").is_some();
    let mut config = ProptestConfig::default();
    if !asked {
        config.cases = cases;
    }
    if config.rng_seed == RngSeed::Random {
        config.rng_seed = RngSeed::Fixed(1);
    }
    config.failure_persistence = None;
    config
}
