//! A picture's words without its numbers: what a room is asked about before it is told.

/// What the pictures are about; without its number it is asked for.
const ASKED: &str = "sweep";
/// What is asked about it.
const QUESTION: &str = "how deep?";

/// A text without its number: the name of what is measured, and of the sweep with a question. A verdict before
/// the number would answer that, and what stands behind a number goes with it. None where no name is left.
pub(super) fn without_number(text: &str) -> Option<String> {
    let is_digit = |letter: char| letter.is_ascii_digit();
    let Some(number) = text.find(is_digit) else {
        return Some(text.to_owned());
    };
    let before = &text[..number];
    let name = before.rsplit(": ").next().unwrap_or(before);
    // The sign of a diameter counts as a letter elsewhere.
    let is_of_name = |letter: char| letter.is_alphabetic() && letter != 'Ø';
    let name = name.trim_end_matches(|letter: char| !is_of_name(letter));
    if name.is_empty() {
        None
    } else if name.starts_with(ASKED) {
        Some(format!("{name}: {QUESTION}"))
    } else {
        Some(name.to_owned())
    }
}

/// The forms of a text without their numbers, each once.
pub(super) fn without_numbers(forms: &[String]) -> Vec<String> {
    let mut names: Vec<String> = Vec::with_capacity(forms.len());
    for name in forms.iter().filter_map(|form| without_number(form)) {
        if !names.contains(&name) {
            names.push(name);
        }
    }
    names
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_stay_numbers_and_verdicts_go_and_the_sweep_is_asked_for() {
        for (text, left) in [
            ("knife", Some("knife")),
            ("behind centre 3/8 in", Some("behind centre")),
            ("sweep 0.0201 in", Some("sweep: how deep?")),
            (
                "over limit: sweep 0.0206 in (16.5 %)",
                Some("sweep: how deep?"),
            ),
            (
                "sweep on crest 0.0206 in",
                Some("sweep on crest: how deep?"),
            ),
            (
                "effective height of cut -0.0019 in",
                Some("effective height of cut"),
            ),
            ("Lens A, section, 5:1", Some("Lens A, section")),
            ("stretched upwards ×3", Some("stretched upwards")),
            ("over limit: 16.5 % of the height of cut", None),
            ("5.00°", None),
            ("-0.0070 in", None),
            ("Ø 2.000 in", None),
        ] {
            assert_eq!(without_number(text).as_deref(), left, "{text}");
        }
        let forms = [
            "behind centre 0.320 in ± 0.001 in",
            "behind centre 0.320 in",
            "0.320 in",
        ];
        let forms = forms.map(str::to_owned).to_vec();
        assert_eq!(without_numbers(&forms), ["behind centre"]);
    }
}
