//! What the page says before the app runs, or where it cannot run.

use std::{fs, path::Path};

use ringland_report::words::{Language, words};

/// The page stands there before any program does, so it says these in every language.
#[test]
fn the_page_says_why_nothing_starts_in_the_words_of_the_catalogue() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../index.html");
    let page = fs::read_to_string(path).unwrap();
    for language in Language::ALL {
        let (tag, common) = (language.tag(), &words(language).common);
        for (class, text) in [
            (" class=\"trouble\"", common.no_scripts),
            ("", common.cannot_start),
        ] {
            let line = format!("<p{class} lang=\"{tag}\">{text}</p>");
            assert!(page.contains(&line), "index.html lacks {line}");
        }
    }
}
