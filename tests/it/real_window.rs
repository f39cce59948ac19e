//! The real window on a real display. Left out of an ordinary run, which needs neither:
//! `cargo test --test it -- --ignored real_window`.

use std::collections::HashSet;
use std::process::Command;

use crate::common::demo_unit::DemoUnit;

/// Opens the window on a demo unit and gives the picture of it.
fn shot(unit: DemoUnit, extra: &[&str]) -> image::RgbaImage {
    let folder = tempfile::tempdir().expect("a folder");
    let out = folder.path().join("shot.png");
    let done = Command::new(env!("CARGO_BIN_EXE_sweepgauge"))
        .arg("window")
        .arg(unit.file())
        .args(["--size", "1280x800", "--shot"])
        .arg(&out)
        .args(extra)
        .output()
        .expect("the program runs");
    let said = String::from_utf8_lossy(&done.stderr).into_owned();
    assert!(done.status.success(), "{said}");
    image::open(&out).expect("a picture").to_rgba8()
}

fn colours_in(picture: &image::RgbaImage, from: (u32, u32), size: (u32, u32)) -> usize {
    let part = image::imageops::crop_imm(picture, from.0, from.1, size.0, size.1).to_image();
    part.pixels()
        .map(|pixel| pixel.0)
        .collect::<HashSet<_>>()
        .len()
}

#[test]
#[ignore = "needs a display"]
fn the_window_shows_form_drawing_and_findings() {
    let picture = shot(DemoUnit::GreensScalping, &[]);
    assert_eq!(picture.dimensions(), (1280, 800));
    for (part, from, size) in [
        ("form", (0, 60), (380, 700)),
        ("drawing", (420, 160), (480, 400)),
        ("lens", (930, 180), (320, 360)),
        ("findings", (880, 600), (380, 180)),
    ] {
        assert!(colours_in(&picture, from, size) > 40, "{part} is blank");
    }
}

#[test]
#[ignore = "needs a display"]
fn the_dark_window_is_dark() {
    let brightness = |picture: &image::RgbaImage| {
        let sum: u64 = picture
            .pixels()
            .map(|p| p.0[..3].iter().map(|&c| u64::from(c)).sum::<u64>())
            .sum();
        sum / u64::from(picture.width() * picture.height() * 3)
    };
    assert!(brightness(&shot(DemoUnit::FairwayTrailed, &["--dark"])) < 80);
    assert!(brightness(&shot(DemoUnit::FairwayTrailed, &[])) > 180);
}

#[test]
#[ignore = "needs a display"]
fn every_area_opens_with_something_of_its_own() {
    let areas = [&[][..], &["--knives"], &["--why"], &["--blade-path"]];
    let pictures = areas.map(|area| shot(DemoUnit::TeesCrowned, area));
    for (index, picture) in pictures.iter().enumerate() {
        assert!(
            colours_in(picture, (410, 60), (860, 700)) > 40,
            "{:?}",
            areas[index]
        );
        assert!(pictures[..index].iter().all(|before| before != picture));
    }
    for (id, picture) in ["unit", "knives", "why", "blade-path"]
        .iter()
        .zip(&pictures)
    {
        assert!(
            shot(DemoUnit::TeesCrowned, &["--area", id]) == *picture,
            "{id}"
        );
    }
}
