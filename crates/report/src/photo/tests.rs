//! The album of a card, what is drawn on a photo, and a page with photos.

use std::collections::BTreeSet;

use ringland_assess::{Tree, assess};
use ringland_card::{
    About, Body, Card, EntryId, Grade, Look, Mark, Photo, PhotoDigest, PositionId, Taken,
    file::{self, carried},
    gauging::{Decimal, Unit},
    photo::{Picture, PictureKind, Point},
};

use super::*;
use crate::{
    handover::{Choice, ReadAs, chosen, page_of},
    measured_engine::{measured, row, write},
    words::Words,
};

const PICTURE: Picture = Picture {
    kind: PictureKind::Jpeg,
    width: 2_000,
    height: 1_500,
    bytes: 400_000,
};

fn take(
    card: &mut Card,
    position: Option<&str>,
    taken: Taken,
    name: &str,
) -> (EntryId, PhotoDigest) {
    let about = position.map(|position| About {
        position: PositionId::new(position).unwrap(),
        characteristic: None,
    });
    let digest = PhotoDigest::of(name.as_bytes());
    let photo = Box::new(Photo {
        digest,
        picture: PICTURE,
        taken,
    });
    (write(card, "<one>", Body::Photo { about, photo }), digest)
}

fn point(x: f64, y: f64) -> Point {
    Point { x, y }
}

fn text(text: &str) -> Mark {
    Mark::Note {
        at: point(10.0, 10.0),
        text: text.to_owned(),
    }
}

fn known() -> Mark {
    Mark::Scale {
        from: point(0.0, 0.0),
        to: point(1_000.0, 0.0),
        length: Decimal::new("100").unwrap(),
        unit: Unit::Mm,
    }
}

fn length() -> Mark {
    Mark::Length {
        from: point(0.0, 500.0),
        to: point(500.0, 500.0),
    }
}

#[test]
fn an_album_hangs_as_found_before_cleaned_and_positions_as_the_plan_has_them() {
    let mut card = measured();
    for (position, taken, name) in [
        (Some("cyl2/liner"), Taken::Cleaned, "a"),
        (Some("cyl1/liner"), Taken::AsFound, "b"),
        (Some("cyl2/liner"), Taken::AsFound, "c"),
        (None, Taken::AsFound, "d"),
        (Some("elsewhere"), Taken::AsFound, "e"),
    ] {
        take(&mut card, position, taken, name);
    }
    let standing = card.standing();
    let album = Album::of(&standing);
    let groups = album.groups(&standing, &Words::ENGLISH);
    let hung: Vec<(&str, &[usize])> = groups
        .iter()
        .map(|group| (&*group.title, &*group.photos))
        .collect();
    assert_eq!(
        hung,
        [
            ("The whole engine", &[3][..]),
            ("Cylinder 1, liner", &[1]),
            ("Cylinder 2, liner", &[2, 0]),
            ("elsewhere", &[4]),
        ]
    );
    let rows = album.rows(&standing, &Words::ENGLISH);
    let [liners] = &rows[..] else {
        panic!("{rows:?}")
    };
    let along: Vec<usize> = liners
        .groups
        .iter()
        .map(|group| group.photos.len())
        .collect();
    assert_eq!(along, [1, 2, 0, 0, 0, 0]);
}

#[test]
fn whoever_rates_blind_sees_the_photos_and_their_own_marks() {
    let mut card = measured();
    let (on, _) = take(&mut card, Some("cyl1/liner"), Taken::AsFound, "a");
    for rater in ["A", "B"] {
        let mark = Mark::Note {
            at: Point { x: 1.0, y: 1.0 },
            text: rater.to_owned(),
        };
        write(&mut card, rater, Body::Mark { on, mark });
    }
    let standing = card.standing();
    let marks = |rater: Option<&str>| {
        let album = Album::of(&standing).seen_blind(rater);
        assert_eq!(album.photos.len(), 1);
        let marks = album.photos[0].marks.iter();
        marks
            .map(|(_, mark)| mark.text().to_owned())
            .collect::<Vec<_>>()
    };
    assert_eq!(marks(None), ["A", "B"]);
    assert_eq!(marks(Some("B")), ["B"]);
    assert!(marks(Some("C")).is_empty());
}

/// By hand: 500 of 1,000 pixels that are 100 mm; u² = 50²·(2·(2/500)² + 2·(2/1000)² + (1/100)²/12) = 0.1208 mm².
#[test]
fn a_length_stands_beside_its_line_with_its_interval() {
    let (known, length) = (known(), length());
    let drawn = overlay(&Words::ENGLISH, &PICTURE, &[&length, &known]);
    assert!(
        drawn.contains(">50.00\u{a0}±\u{a0}0.70\u{a0}mm</text>"),
        "{drawn}"
    );
    assert!(drawn.contains(">100\u{a0}mm</text>"));
    assert_eq!(
        Words::ENGLISH.mark_among(&length, &[&length]),
        "Measure: no known length on this photo"
    );
}

#[test]
fn what_a_mark_says_is_only_text() {
    let drawn = overlay(
        &Words::ENGLISH,
        &PICTURE,
        &[&text("</text><script>alert(1)</script>")],
    );
    assert!(!drawn.contains("<script") && drawn.contains("&lt;script&gt;"));
}

#[test]
fn a_page_shows_the_photos_it_was_given_and_says_what_it_does_not_show() {
    let mut card = measured();
    let worst = row(&card, "lobe/exhaust", "wear")[2];
    let at = card.index().leaves()[worst.0].at(card.plan());
    let position = at.position.as_str().to_owned();
    let look = Look::Grade(Grade::Severe);
    write(&mut card, "<one>", Body::Rating { at, look });
    // Two of the worst are of one position: its photo stands beside the first of them.
    let pitted = row(&card, "lobe/exhaust", "pitted")[2];
    let at = card.index().leaves()[pitted.0].at(card.plan());
    let look = Look::Percent(95.0);
    write(&mut card, "<one>", Body::Rating { at, look });
    let (_, lobe) = take(&mut card, Some(&position), Taken::AsFound, "lobe");
    let (on, liner) = take(&mut card, Some("cyl6/liner"), Taken::AsFound, "liner");
    take(&mut card, None, Taken::Cleaned, "gone");
    for mark in [known(), length(), text("\" src=\"photo:")] {
        write(&mut card, "<one>", Body::Mark { on, mark });
    }
    let here: BTreeSet<PhotoDigest> = [lobe, liner].into();
    let opened = file::read(file::write(&card).as_bytes()).unwrap();
    assert_eq!(chosen(&opened, Choice::None, &here), BTreeSet::new());
    assert_eq!(chosen(&opened, Choice::Worst, &here), [lobe].into());
    assert_eq!(chosen(&opened, Choice::All, &here), here);
    let page = page_of(&opened, ReadAs::default(), &here);
    let shown: Vec<PhotoDigest> = pieces(&page)
        .into_iter()
        .filter_map(|piece| match piece {
            Piece::Photo(digest) => Some(digest),
            Piece::Text(_) => None,
        })
        .collect();
    // Each once: that of the worst position beside it, the other among the photos.
    assert_eq!(shown, [lobe, liner]);
    for said in [
        "1 photo is not in this page",
        "Those of the worst positions stand beside them above",
        "photographed square on",
    ] {
        assert!(page.contains(said), "{said}");
    }
    assert_eq!(
        *carried(page.as_bytes()).unwrap(),
        *file::write(&card).as_bytes()
    );
    let none = page_of(&opened, ReadAs::default(), &BTreeSet::new());
    assert!(none.contains("3 photos are not in this page") && pieces(&none).len() == 1);
}

#[test]
fn the_log_says_what_was_photographed_and_marked() {
    let mut card = measured();
    let (on, _) = take(&mut card, Some("cyl2/liner"), Taken::Cleaned, "a");
    let mark = write(
        &mut card,
        "<one>",
        Body::Mark {
            on,
            mark: text("Worn"),
        },
    );
    let said = |id| {
        Words::ENGLISH.entry(
            &card,
            card.entry(id).unwrap(),
            crate::format::UnitPrefs::default(),
        )
    };
    assert_eq!(said(on), "Photo: Cylinder 2, liner, cleaned");
    assert_eq!(said(mark), "Words: Worn on the photo of Cylinder 2, liner");
    let tree = Tree::of(card.plan());
    let result = assess(&card.standing(), &tree);
    // A photo is no look: nothing of the score is its doing.
    let before = measured();
    let plain = assess(&before.standing(), &tree);
    assert_eq!(result.all.nodes, plain.all.nodes);
}
