//! What must hold for any bytes from outside. The fuzzer (`fuzz/`) looks for bytes for which it does
//! not; the tests go through what it found and a short run of their own.

use std::{sync::LazyLock, task::Poll};

use ringland_assess::{Assessment, Tree, assess};
use ringland_card::{
    Body, Card, CardId, Cause, Depth, DeviceId, Entry, EntryId, Grade, Layout, Look, Photo,
    PhotoDigest, Plan, Taken, Timestamp, builtin,
    file::{self, Bundle},
    photo::{Picture, PictureKind},
};

/// A reader that is given anything.
pub type Target = fn(&[u8]);

/// The targets by name; each has its folder of finds in `tests/corpus`.
pub const TARGETS: [(&str, Target); 4] = [
    ("card", read_card),
    ("plan", read_plan),
    ("merge", merge),
    ("bundle", read_bundle),
];

/// A file, or a page that carries one: it is refused with words, or it is a card that can be worked out and written again.
///
/// # Panics
///
/// When it is neither.
pub fn read_card(bytes: &[u8]) {
    let read = file::read(bytes);
    assert_eq!(read, in_steps(bytes), "in steps it comes out otherwise");
    match read {
        Ok(opened) => holds(&opened.card),
        Err(refusal) => assert!(!refusal.to_string().is_empty(), "refused without a word"),
    }
}

/// The same file read in a few steps, as the app does it.
fn in_steps(bytes: &[u8]) -> Result<file::Opened, file::FileError> {
    let bytes = file::carried(bytes)?;
    let mut opening = file::OpeningCard::new(&bytes);
    loop {
        if let Poll::Ready(read) = opening.step(bytes.len() / 7 + 1) {
            return read;
        }
    }
}

/// A plan, in the place of a good card's own.
///
/// # Panics
///
/// When it is neither refused with words nor a plan that a card can stand on.
pub fn read_plan(bytes: &[u8]) {
    let whole = file::write(&small_card(1));
    let Ok(mut document) = serde_json::from_str::<serde_json::Value>(&whole) else {
        unreachable!("a card is written as JSON")
    };
    let Ok(plan) = serde_json::from_slice::<serde_json::Value>(bytes) else {
        return;
    };
    document["plan"] = plan;
    read_card(document.to_string().as_bytes());
}

/// An archive with a card and photos, a page that shows some, or a picture: what it gives is what its name or its own
/// first bytes say.
///
/// # Panics
///
/// When it is not.
pub fn read_bundle(bytes: &[u8]) {
    for (digest, photo) in file::shown(bytes) {
        assert_eq!(PhotoDigest::of(&photo), digest);
    }
    if let Ok(picture) = Picture::of(bytes) {
        assert_eq!(picture.check(), Ok(()));
    }
    let bundle = match Bundle::open(bytes) {
        Ok(bundle) => bundle,
        Err(refusal) => return assert!(!refusal.to_string().is_empty(), "refused without a word"),
    };
    if let Ok(card) = bundle.card() {
        read_card(&card);
    }
    for digest in bundle.photos() {
        let photo = Photo {
            digest,
            picture: SMALL,
            taken: Taken::AsFound,
        };
        if let Some(Ok(given)) = bundle.photo(&photo) {
            assert_eq!(PhotoDigest::of(&given), digest);
            assert_eq!(Picture::of(&given), Ok(SMALL));
        }
    }
}

/// The picture of the archives in `tests/corpus`.
const SMALL: Picture = Picture {
    kind: PictureKind::Png,
    width: 4,
    height: 3,
    bytes: 71,
};

/// The bytes as what two tablets did: whatever they did, their cards merge either way round to the
/// same card, which opens again.
///
/// # Panics
///
/// When they do not.
pub fn merge(bytes: &[u8]) {
    let mut tablets = [small_card(1), small_card(1)];
    for (n, deed) in (1u64..).zip(bytes.chunks_exact(4).take(32)) {
        let &[who, what, which, how] = deed else {
            unreachable!("chunks of four")
        };
        let tablet = usize::from(who & 1);
        if what % 16 == 15 {
            tablets[tablet] = merged(&tablets[tablet], &tablets[1 - tablet]);
            continue;
        }
        let card = &mut tablets[tablet];
        let entry = entry(card, n, who, what, which, how);
        // What the card refuses is not on it; that it refuses is not a fault.
        let _refused = card.append(entry);
    }
    let [ours, theirs] = &tablets;
    let both = merged(ours, theirs);
    assert_eq!(
        file::write(&both),
        file::write(&merged(theirs, ours)),
        "the other way round"
    );
    assert_eq!(
        file::write(&both),
        file::write(&merged(&both, theirs)),
        "once more"
    );
    holds(&both);
}

fn merged(ours: &Card, theirs: &Card) -> Card {
    match ours.merge(theirs) {
        Ok(card) => card,
        Err(refusal) => panic!("two tablets of one card do not merge: {refusal}"),
    }
}

/// What holds for every card: worked out within its bounds, the same after a round trip.
fn holds(card: &Card) {
    let before = worked_out(card);
    for node in &before.all.nodes {
        let Some(score) = node.score else { continue };
        assert!((0.0..=10.0).contains(&score), "a score of {score}");
        assert!(
            (0.0..=1.0 + 1e-12).contains(&node.coverage),
            "a coverage of {}",
            node.coverage
        );
    }
    let text = file::write(card);
    match file::read(text.as_bytes()) {
        Ok(again) => {
            assert!(again.digest_matches, "a digest of its own does not match");
            assert_eq!(again.card, *card, "a card came back as another");
            assert_eq!(file::write(&again.card), text, "the same card, other bytes");
        }
        Err(refusal) => panic!("what was written is refused: {refusal}"),
    }
}

fn worked_out(card: &Card) -> Assessment {
    assess(&card.standing(), &Tree::of(card.plan()))
}

/// Made once: the fuzzer asks for it a thousand times a second.
static SMALL_PLAN: LazyLock<Plan> = LazyLock::new(|| {
    let layout = Layout {
        cylinders: 1,
        mains: 2,
        ..Layout::inline_six()
    };
    let Ok(mut plan) = builtin(&layout, Depth::Short) else {
        unreachable!("an engine of one cylinder has a plan")
    };
    let kept = ["camshaft", "liners", "rings"];
    plan.sections
        .retain(|section| kept.contains(&section.id.as_str()));
    plan.caps.retain(|rule| kept.contains(&rule.node.as_str()));
    plan
});

fn small_card(id: u8) -> Card {
    match Card::new(CardId::v7(1_700_000_000_000, [id; 10]), SMALL_PLAN.clone()) {
        Ok(card) => card,
        Err(refusal) => unreachable!("the small plan is refused: {refusal}"),
    }
}

fn entry(card: &Card, n: u64, who: u8, what: u8, which: u8, how: u8) -> Entry {
    let plan = card.plan();
    let leaves = card.index().leaves();
    let leaf = &leaves[usize::from(which) % leaves.len()];
    let earlier = card
        .entries()
        .nth(usize::from(which) % card.len().max(1))
        .map_or(EntryId::v7(1, [0; 10]), |entry| entry.id);
    let body = match what % 16 {
        0..8 => Body::Rating {
            at: leaf.at(plan),
            look: Look::Grade(Grade::ALL[usize::from(how) % Grade::ALL.len()]),
        },
        8 | 9 => Body::Rating {
            at: leaf.at(plan),
            look: Look::Percent(f64::from(how)),
        },
        10 => Body::Cause {
            about: ringland_card::About {
                position: leaf.at(plan).position,
                characteristic: None,
            },
            cause: Cause::ALL[usize::from(how) % Cause::ALL.len()],
        },
        11 | 12 => Body::Void {
            entry: earlier,
            reason: String::from_utf8_lossy(&[how]).into_owned(),
        },
        13 => Body::Plan {
            plan: Box::new(changed_plan(how)),
        },
        _ => Body::Remark {
            about: None,
            text: char::from_u32(u32::from(how) * 331)
                .unwrap_or('\u{202e}')
                .to_string(),
        },
    };
    let time = Timestamp::from_millisecond(1_700_000_000_000 + i64::from(how) * 1000)
        .unwrap_or_else(|| unreachable!("a time in 2023"));
    let entry = Entry::new(
        EntryId::v7(1_700_000_000_000 + n, [who & 1; 10]),
        DeviceId::v7(1_600_000_000_000, [who & 1; 10]),
        // Clocks and counters of two tablets stand as they like.
        card.next_lamport() + u64::from(who >> 5),
        time,
        ["A", "B"][usize::from(who >> 1 & 1)],
        body,
    );
    if who & 4 == 0 {
        entry
    } else {
        entry.superseding(earlier)
    }
}

fn changed_plan(how: u8) -> Plan {
    let mut plan = SMALL_PLAN.clone();
    plan.version = how.to_string();
    plan.sections[0].weight = 1.0 + f64::from(how);
    if how & 1 == 1 {
        let last = plan.sections.len() - 1;
        let gone = plan.sections.remove(last);
        plan.caps
            .retain(|rule| rule.node.as_str() != gone.id.as_str());
    }
    plan
}
