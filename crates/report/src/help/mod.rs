//! The help pages as HTML, one file each, with the drawn swatches.

mod areas;
mod grades;
mod photos;
mod score;
mod seals;

use crate::{markup::Html, words::Words};

/// A help page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Topic {
    /// How to grade.
    Grades,
    /// How to paint areas.
    Areas,
    /// What the score means.
    Score,
    /// How to photograph, and how to read areas off a photo.
    Photos,
    /// What a seal shows.
    Seals,
}

impl Topic {
    /// Every page, in the order in which they are offered.
    pub const ALL: [Self; 5] = [
        Self::Grades,
        Self::Areas,
        Self::Score,
        Self::Photos,
        Self::Seals,
    ];

    /// What it is called in an address.
    pub fn slug(self) -> &'static str {
        match self {
            Self::Grades => "grades",
            Self::Areas => "areas",
            Self::Score => "score",
            Self::Photos => "photos",
            Self::Seals => "seals",
        }
    }

    /// The page of that name in an address.
    pub fn of_slug(slug: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|topic| topic.slug() == slug)
    }

    /// Its title.
    pub fn title(self, words: &Words) -> &'static str {
        match self {
            Self::Grades => words.help.grades,
            Self::Areas => words.help.areas,
            Self::Score => words.help.score,
            Self::Photos => words.help.photos,
            Self::Seals => words.help.seals,
        }
    }

    /// What stands below its title.
    pub fn page(self, words: &'static Words) -> String {
        let mut html = Html::new();
        match self {
            Self::Grades => grades::page(&mut html, words),
            Self::Areas => areas::page(&mut html, words),
            Self::Score => score::page(&mut html, words),
            Self::Photos => photos::page(&mut html, words),
            Self::Seals => seals::page(&mut html, words),
        }
        if self != Self::Seals {
            html.el("p class=\"fine\"", words.help.drawings);
        }
        html.done()
    }
}

/// A picture with a word and a line below it.
fn figure(html: &mut Html, picture: &str, name: &str, meaning: &str) {
    html.open("figure class=\"help__figure\"")
        .markup(picture)
        .open("figcaption")
        .el("b", name)
        .el("span class=\"mute\"", meaning)
        .close("figcaption")
        .close("figure");
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::words::{Language, words};

    #[test]
    fn every_page_has_its_pictures_in_every_language() {
        for language in Language::ALL {
            let words = words(language);
            for topic in Topic::ALL {
                let page = topic.page(words);
                assert_eq!(Topic::of_slug(topic.slug()), Some(topic));
                let drawn = page.matches("<svg").count() >= 1;
                assert_eq!(drawn, topic != Topic::Seals, "{topic:?}");
                assert!(!page.contains("style="), "{topic:?}");
                for element in ["section", "figure", "ul", "ol", "p", "div"] {
                    let opened = [format!("<{element}>"), format!("<{element} ")];
                    let opened: usize = opened.iter().map(|tag| page.matches(tag).count()).sum();
                    let closed = page.matches(&format!("</{element}>")).count();
                    assert_eq!(opened, closed, "{topic:?} {element}");
                }
            }
        }
        assert_eq!(Topic::of_slug("other"), None);
    }

    #[test]
    fn each_surface_shows_each_grade() {
        let page = Topic::Grades.page(words(Language::English));
        // Six with their meaning, six on each of the five surfaces.
        assert_eq!(page.matches("<svg").count(), 6 + 5 * 6);
    }

    #[test]
    fn what_the_score_does_not_say_is_said() {
        let english = words(Language::English);
        let page = Topic::Score.page(english);
        assert!(page.contains(&*crate::html::escape(english.help_score.not_reuse)));
        assert!(page.contains(&*crate::html::escape(english.cautions.reuse)));
    }
}
