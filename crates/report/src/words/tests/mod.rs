//! The catalogue as a whole.

mod file_errors;
mod plan_errors;
mod plans;
mod sayings;

use super::*;

const EN: &Words = &Words::ENGLISH;

/// What may end a text with a full stop.
const ABBREVIATIONS: [&str; 8] = [
    " adm.", " esc.", " izq.", " der.", " sup.", " inf.", " UU.", " típ.",
];

/// Every language with its words.
fn languages() -> impl Iterator<Item = (&'static str, &'static Words)> {
    Language::ALL
        .into_iter()
        .map(|language| (language.tag(), words(language)))
}

/// The words are declared with their values in English, so this holds every language to the same.
#[test]
fn every_sentence_takes_just_its_values() {
    for (tag, words) in languages() {
        for (group, word) in words.all() {
            let mut holes = catalogue::holes(word.text);
            holes.sort_unstable();
            holes.dedup_by_key(|(name, _)| *name);
            let mut values = word.values.clone();
            values.sort_unstable();
            let names = |(name, _): &(&'static str, &'static str)| *name;
            assert_eq!(
                holes.iter().map(|(name, _)| *name).collect::<Vec<_>>(),
                values.iter().map(names).collect::<Vec<_>>(),
                "{tag} {group}.{}: {}",
                word.name,
                word.text
            );
        }
    }
}

#[test]
fn a_plural_form_is_chosen_by_a_whole_number() {
    for (tag, words) in languages() {
        for (group, word) in words.all() {
            for (hole, forms) in catalogue::holes(word.text) {
                let at = format!("{tag} {group}.{}: {}", word.name, word.text);
                let Some(forms) = forms else { continue };
                assert!(
                    forms.matches(':').count() == 1 && !forms.contains('{'),
                    "{at}"
                );
                let (_, kind) = word.values.iter().find(|(name, _)| *name == hole).unwrap();
                assert!(matches!(*kind, "usize" | "u8"), "{at}");
            }
        }
    }
}

#[test]
fn the_style_is_kept() {
    for (tag, words) in languages() {
        let sentences = words
            .all()
            .into_iter()
            .map(|(group, word)| (format!("{group}.{}", word.name), word.text));
        for (name, text) in sentences.chain(words.terms.texts()) {
            let at = format!("{tag} {name}: {text}");
            assert!(!text.is_empty() && text.trim() == text, "{at}");
            assert!(!text.ends_with(':') && !text.contains("..."), "{at}");
            // One short sentence has no full stop; the last of several has none either.
            // An abbreviation may.
            let abbreviated = ABBREVIATIONS.iter().any(|short| text.ends_with(short));
            assert!(
                !text.ends_with('.') || !text.contains(' ') || abbreviated,
                "{at}"
            );
        }
    }
}

#[test]
fn a_language_has_its_tag_and_its_own_name() {
    let all = Language::ALL.map(|language| (language.tag(), language.own_name()));
    assert_eq!(all, [("en", "English"), ("es", "Español")]);
}

#[test]
fn a_language_is_asked_for_by_the_first_part_of_its_tag() {
    let asked = |tag| Language::of_tag(tag).map(Language::tag);
    assert_eq!(asked("es-MX"), Some("es"));
    assert_eq!(asked("EN"), Some("en"));
    assert_eq!(
        (asked("est"), asked(""), asked("fr-CA")),
        (None, None, None)
    );
}

#[test]
fn what_the_program_writes_is_read_in_the_readers_language() {
    let es = words(Language::Spanish);
    assert_eq!(es.void_reason(UNDONE), es.bench.undone_reason);
    assert_eq!(es.void_reason(CLEARED), es.facts.cleared_reason);
    assert_eq!(es.void_reason("wrong piston"), "wrong piston");
}

#[test]
fn grades_and_dates_read_well() {
    assert_eq!(EN.grade(Grade::TraceToLight), "Trace to light");
    assert_eq!(EN.grade(Grade::HeavyToSevere), "Heavy to severe");
    assert_eq!(EN.grade(Grade::None), "None");
    let at: Timestamp = "2026-11-24T12:22:07Z".parse().unwrap();
    assert_eq!(EN.date(at, 0), "24 November 2026");
    assert_eq!(EN.date_time(at, 12 * 60), "25 November 2026, 00:22");
    let days = |first: &str| EN.days(first.parse().unwrap(), at, 0);
    assert_eq!(days("2026-11-24T01:00:00Z"), "24 November 2026");
    assert_eq!(days("2026-11-09T01:00:00Z"), "9 to 24 November 2026");
    assert_eq!(
        days("2026-10-09T01:00:00Z"),
        "9 October to 24 November 2026"
    );
    assert_eq!(
        days("2025-12-31T01:00:00Z"),
        "31 December 2025 to 24 November 2026"
    );
}

#[test]
fn plural_forms_are_right() {
    assert_eq!(EN.facts.n_ratings(1), "1 rating");
    assert_eq!(EN.facts.n_ratings(695), "695 ratings");
    assert_eq!(EN.shelf.merged(1, "Tarn 14"), "1 new entry for Tarn 14");
}
