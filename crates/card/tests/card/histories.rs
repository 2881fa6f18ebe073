//! Random histories: three tablets at one bench, each writing by itself and now and then merging.

use proptest::prelude::*;
use ringland_card::{
    Areas, At, Body, Card, Cause, Entry, EntryId, Fact, Grade, LevelId, Look, NotInspected, SpotId,
    gauging::{Quantity, Reading, Spot, Unit},
    scale::{GaugedScale, Scale},
};
use uom::si::{f64::Length, length::meter};

use crate::bench;

/// Something that happens at the bench. The numbers pick among what there is at that moment.
#[derive(Clone, Debug)]
pub(crate) enum Happening {
    /// A tablet writes.
    Write {
        tablet: u8,
        rater: usize,
        what: What,
        supersedes: Option<usize>,
    },
    /// A tablet takes over what another has.
    Merge { into: usize, from: usize },
}

#[derive(Clone, Debug)]
pub(crate) enum What {
    Look {
        leaf: usize,
        value: u16,
    },
    NotInspected {
        leaf: usize,
        reason: usize,
    },
    Cause {
        leaf: usize,
        whole: bool,
        cause: usize,
    },
    Distance(f64),
    Name(String),
    Remark(String),
    Photo(u8),
    Mark(usize),
    Void(usize),
    Plan(usize),
}

fn what() -> impl Strategy<Value = What> {
    prop_oneof![
        // Few leaves, so that raters and tablets meet on the same ones.
        8 => (0usize..40, 0u16..1000).prop_map(|(leaf, value)| What::Look { leaf, value }),
        1 => (0usize..40, 0usize..7).prop_map(|(leaf, reason)| What::NotInspected { leaf, reason }),
        2 => (0usize..40, any::<bool>(), 0usize..8)
            .prop_map(|(leaf, whole, cause)| What::Cause { leaf, whole, cause }),
        1 => (0.0..2e9).prop_map(What::Distance),
        1 => ".{0,12}".prop_map(What::Name),
        1 => ".{0,12}".prop_map(What::Remark),
        1 => (0u8..3).prop_map(What::Photo),
        1 => any::<usize>().prop_map(What::Mark),
        2 => any::<usize>().prop_map(What::Void),
        1 => (0usize..3).prop_map(What::Plan),
    ]
}

fn happening() -> impl Strategy<Value = Happening> {
    prop_oneof![
        6 => (0u8..3, 0usize..3, what(), proptest::option::weighted(0.2, any::<usize>()))
            .prop_map(|(tablet, rater, what, supersedes)| Happening::Write {
                tablet,
                rater,
                what,
                supersedes,
            }),
        1 => (0usize..3, 0usize..3).prop_map(|(into, from)| Happening::Merge { into, from }),
    ]
}

/// The three tablets' cards after a history.
pub(crate) fn tablets() -> impl Strategy<Value = [Card; 3]> {
    proptest::collection::vec(happening(), 0..40).prop_map(|happenings| {
        let mut tablets = [(); 3].map(|()| bench::card());
        for (n, happening) in (1u64..).zip(happenings) {
            match happening {
                Happening::Write {
                    tablet,
                    rater,
                    what,
                    supersedes,
                } => {
                    let card = &mut tablets[usize::from(tablet)];
                    let mut entry = Entry::new(
                        bench::entry_id(n),
                        bench::device(tablet),
                        card.next_lamport(),
                        bench::time(),
                        ["A", "B", "Ñandú"][rater],
                        body(card, what),
                    );
                    if let Some(target) = supersedes.and_then(|pick| nth(card, pick)) {
                        entry = entry.superseding(target);
                    }
                    // Refused now and then, such as a void of a void: then nothing happens.
                    let _ = card.append(entry);
                }
                Happening::Merge { into, from } => {
                    tablets[into] = tablets[into].merge(&tablets[from]).unwrap();
                }
            }
        }
        tablets
    })
}

/// One card that was written by all three.
pub(crate) fn merged() -> impl Strategy<Value = Card> {
    tablets().prop_map(|[a, b, c]| a.merge(&b).unwrap().merge(&c).unwrap())
}

fn reading(at: At, gauged: &GaugedScale, value: u16) -> Body {
    let pick = usize::from(value);
    let spot = |spots: &[SpotId]| spots.get(pick.checked_rem(spots.len())?).cloned();
    Body::Reading {
        reading: Box::new(Reading {
            at,
            spot: Spot {
                station: spot(&gauged.stations),
                axis: spot(&gauged.axes),
            },
            as_new: pick % 5 == 0,
            unit: match gauged.quantity {
                Quantity::Length => Unit::Mm,
                Quantity::Mass => Unit::G,
            },
            values: vec![bench::typed(&format!(
                "{}.{:03}",
                10 + pick / 100,
                pick % 100 * 7
            ))],
            gauge: None,
            part_c: (pick % 3 == 0).then_some(f64::from(value) / 10.0),
        }),
    }
}

fn nth(card: &Card, pick: usize) -> Option<EntryId> {
    let n = pick.checked_rem(card.len())?;
    card.entries().nth(n).map(|entry| entry.id)
}

fn body(card: &Card, what: What) -> Body {
    let plan = card.plan();
    let leaf = |pick: usize| &card.index().leaves()[pick % card.index().leaves().len()];
    match what {
        What::Look { leaf: pick, value } => {
            let leaf = leaf(pick * 7);
            let scale = plan.scale(&leaf.characteristic(plan).scale).unwrap();
            let at = leaf.at(plan);
            if let Scale::Gauged(gauged) = scale {
                return reading(at, gauged, value);
            }
            match look(scale, value) {
                Some(look) => Body::Rating { at, look },
                None => bench::measurement(0.13 + f64::from(value) * 1e-6),
            }
        }
        What::NotInspected { leaf: pick, reason } => Body::Rating {
            at: leaf(pick * 7).at(plan),
            look: Look::NotInspected(NotInspected::ALL[reason]),
        },
        What::Cause {
            leaf: pick,
            whole,
            cause,
        } => {
            let at = leaf(pick * 7).at(plan);
            Body::Cause {
                about: ringland_card::About {
                    position: at.position,
                    characteristic: (!whole).then_some(at.characteristic),
                },
                cause: Cause::ALL[cause],
            }
        }
        What::Distance(metres) => Body::Fact {
            fact: Fact::DistanceM(Length::new::<meter>(metres)),
        },
        What::Name(text) => bench::name(&text),
        What::Remark(text) => bench::remark(&text),
        What::Photo(tail) => crate::photos::taken(&crate::photos::png(40, 30, tail)),
        // Now and then on what is no photo, which is refused.
        What::Mark(pick) => match nth(card, pick) {
            Some(target) => Body::Mark {
                on: target,
                mark: crate::photos::note("A"),
            },
            None => bench::remark("nothing to mark"),
        },
        What::Void(pick) => match nth(card, pick) {
            Some(target) => bench::void(target),
            None => bench::remark("nothing to take back"),
        },
        What::Plan(pick) => bench::new_plan(match pick {
            0 => bench::plan(),
            1 => bench::other_plan(),
            _ => bench::smaller_plan(),
        }),
    }
}

/// A look that fits a scale; none for one that is measured.
fn look(scale: &Scale, value: u16) -> Option<Look> {
    let percent = f64::from(value) / 10.0;
    let pick = usize::from(value);
    let painted = |levels: Vec<LevelId>| {
        let mut names = levels;
        names.push(LevelId::new("clean").unwrap());
        let sectors: Vec<LevelId> = (0..36)
            .map(|sector| names[(pick / (sector / 6 + 1)) % names.len()].clone())
            .collect();
        Areas::from_sectors(&sectors).unwrap()
    };
    Some(match scale {
        Scale::Grade { .. } => Look::Grade(Grade::ALL[pick % 11]),
        Scale::Area { levels } => Look::Areas(painted(
            levels.iter().map(|level| level.id.clone()).collect(),
        )),
        Scale::MeritArea { levels } => Look::Areas(painted(
            levels.iter().map(|level| level.id.clone()).collect(),
        )),
        Scale::Extent { .. } => Look::Percent(percent),
        Scale::Count { .. } => Look::Count(value.into()),
        Scale::State { states } => Look::State(states[pick % states.len()].id.clone()),
        Scale::Measured { .. } | Scale::Gauged(_) => return None,
    })
}
