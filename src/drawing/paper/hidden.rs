//! A picture's words without its numbers: what a room is asked about before it is told.

/// What is asked of what a picture is about, by how its name begins.
const QUESTIONS: [(&str, &str); 6] = [
    ("sweep", "how deep?"),
    ("behind", "how far?"),
    ("ahead", "how far?"),
    ("height of cut", "how high?"),
    ("effective", "how high?"),
    ("reel", "how near the soil?"),
];

/// A text without its number: the name of what is measured. A verdict before the number would answer what is
/// asked, and what stands behind a number goes with it. None where no name is left.
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
    (!name.is_empty()).then(|| name.to_owned())
}

/// The same with what is asked about it, where the picture is about that.
fn asked_for(text: &str) -> Option<String> {
    let name = without_number(text)?;
    let question = QUESTIONS.iter().find(|(begin, _)| name.starts_with(begin));
    Some(match question {
        Some((_, question)) if name != text => format!("{name}: {question}"),
        _ => name,
    })
}

/// The forms of a text without their numbers, each once; of what the picture is about, as questions.
pub(super) fn without_numbers(forms: &[String], is_subject: bool) -> Vec<String> {
    let left = if is_subject {
        asked_for
    } else {
        without_number
    };
    let mut names: Vec<String> = Vec::with_capacity(forms.len());
    for name in forms.iter().filter_map(|form| left(form)) {
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
    fn names_stay_and_numbers_and_verdicts_go() {
        for (text, left) in [
            ("knife", Some("knife")),
            ("behind centre 3/8 in", Some("behind centre")),
            ("sweep 0.0201 in", Some("sweep")),
            ("over limit: sweep 0.0206 in (16.5 %)", Some("sweep")),
            ("sweep on crest 0.0206 in", Some("sweep on crest")),
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
        assert_eq!(without_numbers(&forms, false), ["behind centre"]);
    }

    #[test]
    fn what_the_picture_is_about_is_asked_for() {
        for (text, asked) in [
            ("sweep 0.0201 in", "sweep: how deep?"),
            ("over limit: sweep 0.0206 in (16.5 %)", "sweep: how deep?"),
            ("sweep on crest 0.0206 in", "sweep on crest: how deep?"),
            ("behind centre 0.320 in", "behind centre: how far?"),
            ("height of cut 1/8 in", "height of cut: how high?"),
            (
                "over limit: reel 0.0070 in into the soil",
                "reel: how near the soil?",
            ),
            // What has no number to ask for, and what only begins with a part's name.
            ("reel", "reel"),
            ("no relief needed", "no relief needed"),
        ] {
            let asked_for = without_numbers(&[text.to_owned()], true);
            assert_eq!(asked_for, [asked], "{text}");
        }
    }
}
