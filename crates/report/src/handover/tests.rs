//! The page of a measured engine whose every text means harm.

use std::collections::BTreeSet;

use ringland_assess::{Tree, assess};
use ringland_card::{
    About, Body, Card, Cause, Grade, Look,
    file::{self, DigestingCard, carried},
    seal::{SealKey, cover, seals},
};

use super::*;
use crate::{
    format::UnitPrefs,
    measured_engine::{measured, row, write},
    words::{Language, words},
};

fn with_page<T>(card: &Card, read_as: ReadAs, read: impl FnOnce(&HandOver<'_>) -> T) -> T {
    let tree = Tree::of(card.plan());
    let result = assess(&card.standing(), &tree);
    let sheet = Sheet::new(card, &tree, &result, words(read_as.language));
    read(&HandOver::new(sheet, read_as, None, false))
}

fn page(card: &Card, read_as: ReadAs) -> String {
    let digest = DigestingCard::new(card).finish(card);
    let carried = Carried {
        file: &file::write(card),
        digest: &digest,
        seals: &seals(card),
    };
    with_page(card, read_as, |hand_over| hand_over.page(carried))
}

fn sentences(card: &Card) -> Vec<String> {
    fn said(page: &HandOver<'_>) -> Vec<String> {
        page.sentences()
    }
    with_page(card, ReadAs::default(), said)
}

/// What stands in that attribute, wherever it does.
fn values<'p>(page: &'p str, attribute: &str) -> Vec<&'p str> {
    let marked = [" ", attribute, "=\""].concat();
    let after = page.split(&marked).skip(1);
    after
        .map(|after| after.split('"').next().unwrap())
        .collect()
}

#[test]
fn nothing_runs_and_nothing_is_loaded() {
    let page = page(&measured(), ReadAs::default());
    assert!(page.contains("&lt;b&gt;Six&lt;/b&gt; &amp; &quot;co&quot;"));
    for never in [
        "<script", "<b>Six", "<i>Bore", "<one>", "<img", "<iframe", " style=", " src=", "@import",
    ] {
        assert!(!page.contains(never), "{never}");
    }
    let loaded = page.split("url(").skip(1).find(|way| !way.starts_with('#'));
    assert_eq!(loaded, None);
    let handler = page.split(" on").skip(1).find(|after| {
        let rest = after.trim_start_matches(|c: char| c.is_ascii_lowercase());
        rest.starts_with("=\"")
    });
    assert_eq!(handler, None);
    let (within, away): (Vec<&str>, Vec<&str>) = values(&page, "href")
        .into_iter()
        .partition(|href| href.starts_with('#'));
    assert!(within.len() > 100);
    assert!(matches!(*away, [card] if card.starts_with("data:application/json;base64,")));
}

#[test]
fn every_way_leads_to_one_place() {
    for language in Language::ALL {
        let page = page(
            &measured(),
            ReadAs {
                language,
                ..ReadAs::default()
            },
        );
        let ids = values(&page, "id");
        let once: BTreeSet<&str> = ids.iter().copied().collect();
        assert_eq!(once.len(), ids.len(), "an id stands twice");
        let ways = values(&page, "href");
        for way in ways.iter().filter_map(|way| way.strip_prefix('#')) {
            assert!(once.contains(way), "{way}");
        }
        // There is nobody to press anything.
        assert!(!page.contains("<button") && !page.contains("data-go"));
    }
}

#[test]
fn the_page_gives_the_card_back() {
    let card = measured();
    let page = page(&card, ReadAs::default());
    assert_eq!(
        *carried(page.as_bytes()).unwrap(),
        *file::write(&card).as_bytes()
    );
    let opened = file::read(page.as_bytes()).unwrap();
    assert!(opened.digest_matches);
    assert_eq!(opened.card, card);
    // A page within a page would be a second card.
    let twice = [page.as_str(), &page].concat();
    assert_eq!(
        file::read(twice.as_bytes()),
        Err(file::FileError::NoCardInPage)
    );
}

#[test]
fn the_page_says_how_it_was_read() {
    let read_as = ReadAs {
        language: Language::Spanish,
        units: UnitPrefs {
            distance: crate::format::DistanceUnit::Mile,
            ..UnitPrefs::default()
        },
        offset_minutes: -360,
    };
    let page = page(&measured(), read_as);
    assert_eq!(was_read_as(&page), Some(read_as));
    assert!(page.contains("<html lang=\"es\">") && page.contains("UTC−06:00"));
    assert_eq!(was_read_as("<html>"), None);
}

#[test]
fn an_altered_card_is_said_to_be_one() {
    let card = measured();
    let tree = Tree::of(card.plan());
    let result = assess(&card.standing(), &tree);
    let english = &crate::words::Words::ENGLISH;
    let said = crate::html::escape(english.hand_over.altered).into_owned();
    for altered in [false, true] {
        let sheet = Sheet::new(&card, &tree, &result, english);
        let page = HandOver::new(sheet, ReadAs::default(), None, altered).page(Carried {
            file: "{}",
            digest: "sha256:0",
            seals: &[],
        });
        assert_eq!(page.contains(&said), altered);
    }
}

/// A style has no way to escape, so what is no letter or figure ends the digest there.
#[test]
fn a_digest_cannot_leave_the_style() {
    let style = style("sha256:ab\"}</style><script>");
    assert!(style.contains("sha256 ab…") && !style.contains("script"));
    assert_eq!(style.matches('{').count(), style.matches('}').count());
}

/// By hand: one look, at a pin graded severe, of 695; 14 sizes of 249, of which three bores are 0.067, 0.247 and
/// 0.185 mm out of round where 0.05 is allowed, a clearance of 0.17 mm is beyond 0.15, and the end float has no limit.
#[test]
fn each_sentence_says_what_is_on_the_card() {
    let mut card = measured();
    let said = sentences(&card);
    let has = |said: &[String], text: &str| said.iter().any(|one| one.contains(text));
    assert!(
        has(
            &said,
            "1 of 695 ratings were made; 0 could not be looked at, 694 were left open"
        ),
        "{said:?}"
    );
    assert!(has(&said, "What was not rated could move that"));
    assert!(has(&said, "14 of 249 sizes were measured"), "{said:?}");
    assert!(
        has(&said, "4 beyond it") && has(&said, "1 has no limit"),
        "{said:?}"
    );
    assert!(has(&said, "Nothing was seen that has another cause"));
    assert!(has(&said, "Nothing was looked at by a second rater"));

    let pin = row(&card, "pin", "wear")[0];
    let at = card.index().leaves()[pin.0].at(card.plan());
    let look = Look::Grade(Grade::Severe);
    write(
        &mut card,
        "two",
        Body::Rating {
            at: at.clone(),
            look,
        },
    );
    let about = About {
        position: at.position,
        characteristic: None,
    };
    let cause = Cause::Dirt;
    write(&mut card, "two", Body::Cause { about, cause });
    let said = sentences(&card);
    assert!(
        has(&said, "1 position was looked at by more than one rater"),
        "{said:?}"
    );
    let causes = said.iter().find(|one| one.contains("not the oil’s doing"));
    assert!(
        causes.is_some_and(|said| said.contains("dirt: ")),
        "{said:?}"
    );
}

#[test]
fn an_engine_that_nobody_rated_is_not_talked_about() {
    let mut card = measured();
    let rated: Vec<_> = card
        .entries()
        .filter(|entry| matches!(entry.body, Body::Rating { .. } | Body::Reading { .. }))
        .map(|entry| entry.id)
        .collect();
    for entry in rated {
        write(
            &mut card,
            "one",
            Body::Void {
                entry,
                reason: "wrong".to_owned(),
            },
        );
    }
    let english = &crate::words::Words::ENGLISH.hand_over;
    assert_eq!(sentences(&card), [english.nothing, english.sizes_none]);
}

#[test]
fn seals_are_said_with_what_came_after_and_what_is_wrong() {
    let mut card = measured();
    assert!(!page(&card, ReadAs::default()).contains("Sealed by"));
    let key = SealKey::from_seed("R. <Hale>", *b"0123456789abcdef0123456789ABCDEF").unwrap();
    let digest = DigestingCard::new(&card).finish(&card);
    let at = card.entries().next().unwrap().time;
    let seal = Box::new(key.seal(&card, at, cover(&card), digest));
    let mut broken = seal.clone();
    broken.digest.push('0');
    write(&mut card, "<one>", Body::Seal { seal });
    let sealed = page(&card, ReadAs::default());
    assert!(sealed.contains("Sealed by R. &lt;Hale&gt;"));
    assert!(sealed.contains("Holds: nothing that it covers was changed"));
    assert!(sealed.contains("Nothing was entered after it"));
    write(&mut card, "<one>", Body::Seal { seal: broken });
    let both = page(&card, ReadAs::default());
    assert!(both.contains("1 entry was made after it"));
    assert!(both.contains("Broken: it was not made with this key"));
    let spanish = ReadAs {
        language: Language::Spanish,
        ..ReadAs::default()
    };
    assert!(page(&card, spanish).contains("Roto: no se hizo con esta clave"));
}
