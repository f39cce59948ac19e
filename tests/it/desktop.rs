//! The program among others on a desktop: its icon at the sizes that are asked for, and its entry.

use std::fs;
use std::path::{Path, PathBuf};

use resvg::{tiny_skia, usvg};

const SIZES: [u32; 7] = [16, 24, 32, 48, 64, 128, 256];

fn assets() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("assets")
}

fn png(side: u32) -> PathBuf {
    assets().join(format!("icons/sweepgauge-{side}.png"))
}

/// The icon's drawing in pixels; small ones are drawn with fewer lines.
fn drawn(side: u32) -> tiny_skia::Pixmap {
    let name = if side > 32 {
        "sweepgauge.svg"
    } else {
        "sweepgauge-small.svg"
    };
    let text = fs::read_to_string(assets().join("icons").join(name)).expect("there is a drawing");
    let tree = usvg::Tree::from_str(&text, &usvg::Options::default()).expect("it is a drawing");
    let mut pixels = tiny_skia::Pixmap::new(side, side).expect("it has a size");
    #[expect(clippy::cast_precision_loss, reason = "a few hundred pixels")]
    let scale = side as f32 / tree.size().width();
    let transform = tiny_skia::Transform::from_scale(scale, scale);
    resvg::render(&tree, transform, &mut pixels.as_mut());
    pixels
}

#[test]
fn the_icon_is_the_same_at_every_size() {
    for side in SIZES {
        let kept = tiny_skia::Pixmap::load_png(png(side)).expect("there is a picture");
        assert_eq!((kept.width(), kept.height()), (side, side));
        let drawn = drawn(side);
        let pairs = kept.data().iter().zip(drawn.data());
        let off = pairs.map(|(a, b)| a.abs_diff(*b)).max();
        assert!(
            off <= Some(2),
            "{side}: {off:?}; `cargo test --test it -- --ignored write_the_icons_anew`"
        );
    }
}

#[test]
#[ignore = "writes assets/icons from the drawings there"]
fn write_the_icons_anew() {
    for side in SIZES {
        let picture = drawn(side).encode_png().expect("it can be a picture");
        fs::write(png(side), picture).expect("it can be written");
    }
}

#[test]
fn the_entry_starts_this_program_with_the_file_it_is_given() {
    let text = fs::read_to_string(assets().join("sweepgauge.desktop")).expect("there is an entry");
    let mut lines = text.lines();
    assert_eq!(lines.next(), Some("[Desktop Entry]"));
    let value = |key: &str| {
        let lines = text.lines().filter_map(|line| line.split_once('='));
        let found: Vec<_> = lines.filter(|(had, _)| *had == key).collect();
        assert_eq!(found.len(), 1, "{key}");
        found[0].1
    };
    let program = env!("CARGO_PKG_NAME");
    assert_eq!(value("Type"), "Application");
    assert_eq!(value("Exec"), format!("{program} %f"));
    // The window's own name, by which a desktop finds its entry.
    assert_eq!(value("StartupWMClass"), program);
    let icon = value("Icon");
    for side in SIZES {
        assert_eq!(png(side), assets().join(format!("icons/{icon}-{side}.png")));
    }
    assert!(value("Categories").ends_with(';') && value("Keywords").ends_with(';'));
}
