use proptest::prelude::*;

use super::*;
use crate::units::{Angle, Length, Ratio, Share, Speed, Turning};

fn length(text: &str) -> f64 {
    Quantity::<Length>::parse(text).unwrap().value().mm()
}

#[test]
#[expect(clippy::float_cmp, reason = "what was typed comes back exactly")]
fn lengths_of_the_file_format_are_read() {
    assert_eq!(length("0.125 in"), 3.175);
    assert_eq!(length("1/8 in"), 3.175);
    assert_eq!(length("1-3/8 in"), 34.925);
    assert_eq!(length(".125\""), 3.175);
    assert_eq!(length("12.7 mm"), 12.7);
    assert_eq!(length("2.5 cm"), 25.0);
    assert!((length("4 thou") - 0.1016).abs() < 1e-15);
    assert!((length("6 ft") - 1828.8).abs() < 1e-9);
    assert_eq!(length("8 m"), 8000.0);
    assert_eq!(length("−1/8 in"), -3.175);
    assert!((length("1/2 in - 2 thou") - 12.6492).abs() < 1e-12);
    assert!((length("1-3/8 in + 4.1 thou") - 35.02914).abs() < 1e-12);
}

#[test]
fn other_kinds_are_read() {
    let angle = Quantity::<Angle>::parse("4.5 deg").unwrap();
    assert!((angle.value().rad() - 0.078_539_816_339_744_83).abs() < 1e-16);
    let walking = Quantity::<Speed>::parse("3.8 mph").unwrap();
    assert!((walking.value().mm_per_s() - 1698.752).abs() < 1e-9);
    let metric = Quantity::<Speed>::parse("6 km/h").unwrap();
    assert!((metric.value().mm_per_s() - 1_666.666_666_666_666_7).abs() < 1e-9);
    assert!(
        (Quantity::<Turning>::parse("1200 rpm")
            .unwrap()
            .value()
            .rev_per_s()
            - 20.0)
            .abs()
            < 1e-12
    );
    assert!((Quantity::<Share>::parse("6 %").unwrap().value().of_one() - 0.06).abs() < 1e-15);
    assert!((Quantity::<Ratio>::parse("1.1").unwrap().value().number() - 1.1).abs() < 1e-15);
    assert!((Quantity::<Ratio>::parse("110 %").unwrap().value().number() - 1.1).abs() < 1e-12);
}

#[test]
fn how_far_a_reading_can_be_off_is_kept() {
    for text in [
        "0.3 in ± 0.02 in",
        "0.3 in +- 0.02 in",
        "0.3 in ± 0.02",
        "0.3 in +/- 20 thou",
    ] {
        let reading = Quantity::<Length>::parse(text).unwrap();
        assert_eq!(reading.text(), text);
        assert!((reading.value().mm() - 7.62).abs() < 1e-12);
        assert!(
            (reading.half_width().unwrap().mm() - 0.508).abs() < 1e-12,
            "{text}"
        );
    }
    assert!(matches!(
        Quantity::<Length>::parse("0.3 in ± -0.02 in"),
        Err(QuantityProblem::NegativeHalfWidth(_))
    ));
}

#[test]
fn fractions_of_one_letter_and_feet_with_inches_are_read() {
    for (text, inches) in [
        ("½ in", 0.5),
        ("1½ in", 1.5),
        ("1-½ in", 1.5),
        ("-1 ⅜\"", -1.375),
        ("1' 6\"", 18.0),
        ("1'6\"", 18.0),
        ("1′ 6½″", 18.5),
        ("1'-6\"", 18.0),
        ("1 ft 6 in", 18.0),
        ("2 feet 0.5 inches", 24.5),
        ("-1 ft 6 in", -18.0),
        ("-0' 6\"", -6.0),
        ("6' 2-1/2\"", 74.5),
        ("1' + 6\"", 18.0),
        ("1' 6\" + 500 thou", 18.5),
    ] {
        let quantity = Quantity::<Length>::parse(text).unwrap();
        assert_eq!(quantity.text(), text);
        assert!(
            (quantity.value().mm() - inches * 25.4).abs() < 1e-9,
            "{text}"
        );
    }
    let off = |text: &str| {
        let quantity = Quantity::<Length>::parse(text).unwrap();
        assert_eq!(quantity.text(), text);
        (
            quantity.value().mm() / 25.4,
            quantity.half_width().unwrap().mm(),
        )
    };
    assert_eq!(off("½ in ± ⅛ in"), (0.5, 3.175));
    assert_eq!(off("1' 6\" ± ¼\""), (18.0, 6.35));
    assert_eq!(off("1 ft 6 in ± 1/8"), (18.0, 3.175));
    let typed = Quantity::<Length>::typed("½ ± ⅛", "in").unwrap();
    assert_eq!(typed.text(), "½ in ± ⅛");
    assert_eq!(Quantity::parse(typed.text()).unwrap(), typed);
}

#[test]
fn what_follows_feet_must_be_inches() {
    for text in [
        "1' 6",
        "1' 18\"",
        "1 ft 6 mm",
        "1 in 6 in",
        "1' - 6\"",
        "6 mm 5 in",
        "1' 6\" 2\"",
    ] {
        assert!(Quantity::<Length>::parse(text).is_err(), "{text}");
    }
    let problem = |text: &str| Quantity::<Length>::parse(text).unwrap_err().to_string();
    assert!(problem("1' - 6\"").contains("what follows them is in inches"));
    assert!(Quantity::<Angle>::parse("1 deg 6 deg").is_err());
}

#[test]
fn a_lonely_plus_or_minus_gets_a_true_sentence() {
    let problem = |text: &str| Quantity::<Length>::parse(text).unwrap_err().to_string();
    for text in ["0.5 in ±", "0.5 in +- ", "½ in ±"] {
        assert!(
            problem(text).starts_with("no number follows the ±"),
            "{text}"
        );
    }
    assert!(problem("± 0.1 in").starts_with("there is no number before the ±"));
    assert!(problem(&"x".repeat(900_000)).len() < 200);
    assert!(problem(&format!("7 {}", "x".repeat(900_000))).len() < 200);
    assert!(problem(&format!("7,{} in", "5".repeat(900_000))).len() < 200);
}

#[test]
fn a_field_lends_its_unit_to_a_bare_number() {
    let typed = Quantity::<Length>::typed("1/8", "in").unwrap();
    assert_eq!((typed.text(), typed.value().mm()), ("1/8 in", 3.175));
    let typed = Quantity::<Length>::typed("0.3 ± 0.02", "in").unwrap();
    assert_eq!(typed.text(), "0.3 in ± 0.02");
    assert_eq!(Quantity::parse(typed.text()).unwrap(), typed);
    let typed = Quantity::<Length>::typed("0.3 ± 0.02 in", "mm").unwrap();
    assert_eq!(typed.text(), "0.3 in ± 0.02 in");
    assert!((typed.value().mm() - 7.62).abs() < 1e-12);
    assert_eq!(
        Quantity::<Length>::typed("3.2 mm", "in").unwrap().text(),
        "3.2 mm"
    );
}

#[test]
fn the_system_of_a_text_is_seen() {
    for (text, system) in [
        ("0.5 in", System::InchDecimal),
        ("7 in", System::InchDecimal),
        ("0.5 in +/- 0.005 in", System::InchDecimal),
        ("1/2 in ± 2 thou", System::InchFraction),
        ("0.5 in + 2 thou", System::InchFraction),
        ("12.7 MM", System::Millimetre),
        ("12.7 mm.", System::Millimetre),
        ("8 m", System::Millimetre),
    ] {
        assert_eq!(
            Quantity::<Length>::parse(text).unwrap().system(),
            system,
            "{text}"
        );
    }
    let whole = Quantity::<Length>::parse("7 in").unwrap();
    assert!(
        whole.is_written_for(System::InchFraction) && !whole.is_written_for(System::Millimetre)
    );
    assert!(
        Quantity::<Turning>::parse("900 rev/min")
            .unwrap()
            .is_written_for(System::Millimetre)
    );
}

#[test]
fn a_wrong_text_says_what_would_be_right() {
    let problem = |text: &str| Quantity::<Length>::parse(text).unwrap_err().to_string();
    assert!(problem("").contains("0.125 in"));
    assert!(problem("7").contains("no unit"));
    assert!(problem("7 rpm").contains("\"rpm\" is not a unit of a length"));
    assert!(problem("about 7 in").contains("not a number"));
    assert!(problem("7,5 in").contains("7.5"));
    assert!(problem("6.9 6.abc big").starts_with("\"6.9 6.abc big\" is not a number"));
    assert!(problem("7/8/9 in").starts_with("\"7/8/9\" is not a number"));
}

fn system() -> impl Strategy<Value = System> {
    prop::sample::select(System::ALL.to_vec())
}

/// Any bare number, those without end included.
fn any_value() -> impl Strategy<Value = f64> {
    let any = prop::num::f64::ANY.prop_filter("a number", |value| !value.is_nan());
    prop_oneof![
        any,
        prop::sample::select(vec![f64::INFINITY, f64::NEG_INFINITY, f64::MIN]),
    ]
}

#[test]
#[cfg_attr(
    debug_assertions,
    should_panic(expected = "only a number can be written")
)]
fn what_is_no_number_is_caught_where_it_is_worked_out_and_zero_where_it_is_not() {
    let written = Quantity::from_value(Length::from_mm(f64::NAN), System::Millimetre);
    assert_eq!(written, Quantity::default());
}

fn assert_read_back<M: Measure>(value: f64, system: System) -> Result<(), TestCaseError> {
    for written in [
        Quantity::from_value(M::from_base(value), system),
        Quantity::exactly(M::from_base(value), system),
    ] {
        prop_assert!(written.value().base().is_finite(), "{}", written.text());
        let again = Quantity::<M>::parse(written.text());
        prop_assert_eq!(again, Ok(written));
    }
    Ok(())
}

proptest! {
    #[test]
    fn every_text_comes_back_as_typed(whole in 0_u32..500, upper in 0_u32..64, power in 0_u32..7) {
        for text in [
            format!("{whole}.{upper:02} in"),
            format!("{upper}/{} in", 1 << power),
            format!("-{whole}-{upper}/{} in", 1 << power),
            format!("{whole}.{upper} mm ± 0.{upper} mm"),
        ] {
            let quantity = Quantity::<Length>::parse(&text).unwrap();
            prop_assert_eq!(quantity.text(), &text);
            let file = ron::to_string(&quantity).unwrap();
            prop_assert_eq!(&ron::from_str::<Quantity<Length>>(&file).unwrap(), &quantity);
        }
    }

    #[test]
    fn a_value_written_out_is_read_back(mm in -400.0..400.0_f64, system in system()) {
        let quantity = Quantity::from_value(Length::from_mm(mm), system);
        prop_assert!((quantity.value().mm() - mm).abs() <= 0.05 * 0.0254 + 1e-9, "{}", quantity.text());
        // Between fractions a length is written in decimals, which may lie as near one as can be told.
    prop_assert!(
        system == System::InchFraction || quantity.is_written_for(system),
        "{}",
        quantity.text()
    );
    let shown = Quantity::<Length>::parse(&quantity.shown_in(system)).unwrap();
    let off = shown.value().mm() - quantity.value().mm();
    prop_assert!(off.abs() <= 0.05 * 0.0254 + 1e-9, "{}", quantity.text());
        let again = Quantity::<Length>::parse(quantity.text()).unwrap();
        prop_assert_eq!(again, quantity);
    }

    #[test]
    fn angles_speeds_and_shares_are_read_back(value in 0.01..50.0_f64, system in system()) {
        let angle = Quantity::from_value(Angle::from_deg(value), system);
        prop_assert!((angle.value().deg() - value).abs() < 5.1e-4);
        let speed = Quantity::from_value(Speed::from_base(value * 100.0), system);
        prop_assert!((speed.value().mm_per_s() - value * 100.0).abs() < 5.0, "{}", speed.text());
        let share = Quantity::from_value(Share::from_base(value), system);
        prop_assert!((share.value().of_one() - value).abs() < 1e-4);
        let turning = Quantity::from_value(Turning::from_base(value * 30.0), system);
        prop_assert!((turning.value().base() - value * 30.0).abs() < 0.51);
        let ratio = Quantity::from_value(Ratio::from_base(value), system);
        prop_assert!((ratio.value().number() - value).abs() < 5.1e-4);
    }

    #[test]
    fn every_value_there_is_can_be_written_and_read_back(value in any_value(), system in system()) {
        assert_read_back::<Length>(value, system)?;
        assert_read_back::<Angle>(value, system)?;
        assert_read_back::<Speed>(value, system)?;
        assert_read_back::<Turning>(value, system)?;
        assert_read_back::<Share>(value, system)?;
        assert_read_back::<Ratio>(value, system)?;
        let radius = Quantity::written_in(Length::from_base(value), "ft", 2);
        prop_assert_eq!(&Quantity::parse(radius.text()).unwrap(), &radius);
    }

    #[test]
    fn no_text_makes_it_panic(text in ".{0,24}") {
        let _ = Quantity::<Length>::parse(&text);
        let _ = Quantity::<Ratio>::typed(&text, "");
    }
}
