//! A small engine to test on, and short words for making entries.

use ringland_card::{
    About, Areas, At, Body, Card, CardId, Cause, CharacteristicId, DeviceId, Entry, EntryId, Fact,
    Grade, Layout, LevelId, Look, Plan, PositionId, ScaleId, StateId, Timestamp, builtin,
    gauging::{Decimal, Reading, Spot, Unit},
    plan::{Characteristic, Depth, Regime, Repeatability},
    scale::Scale,
};

/// Some sections of an engine with so many cylinders: enough to have every kind of scale.
fn some_of(cylinders: u8) -> Plan {
    let layout = Layout {
        cylinders,
        mains: cylinders + 1,
        ..Layout::inline_six()
    };
    let mut plan = builtin(&layout, Depth::Full).unwrap();
    let kept = [
        "top_deck",
        "camshaft",
        "liners",
        "pistons",
        "rings",
        "pins_and_rods",
        "rod_bearings",
    ];
    plan.sections
        .retain(|section| kept.contains(&section.id.as_str()));
    plan.caps.retain(|rule| kept.contains(&rule.node.as_str()));
    // The measured bore of these tests takes the place of the one that is read with a gauge.
    let places = plan.sections.iter_mut().flat_map(|s| &mut s.parts);
    for place in places.flat_map(|part| &mut part.places) {
        if place.id.as_str() == "liner" {
            place.looks.retain(|look| look.id.as_str() != "bore");
        }
    }
    plan
}

/// A two-cylinder engine, with a measured bore beside what the built-in plan looks at.
pub(crate) fn plan() -> Plan {
    let mut plan = some_of(2);
    let bore = ScaleId::new("bore").unwrap();
    plan.scales.insert(
        bore.clone(),
        Scale::Measured {
            as_new: 0.13,
            limit: 0.1302,
        },
    );
    let liner = plan
        .sections
        .iter_mut()
        .flat_map(|section| &mut section.parts)
        .flat_map(|part| &mut part.places)
        .find(|place| place.id.as_str() == "liner")
        .unwrap();
    liner.looks.push(Characteristic {
        id: CharacteristicId::new("bore").unwrap(),
        label: None,
        scale: bore,
        weight: 1.0,
        regime: Regime::Mixed,
        u_rep: Repeatability::Score(0.2),
        same_surface: None,
    });
    plan
}

/// The same plan, heavier on the first section.
pub(crate) fn other_plan() -> Plan {
    let mut plan = plan();
    "2".clone_into(&mut plan.version);
    plan.sections[0].weight = 9.0;
    plan
}

/// The plan of a smaller engine, without the second cylinder.
pub(crate) fn smaller_plan() -> Plan {
    some_of(1)
}

pub(crate) fn card_id(n: u8) -> CardId {
    CardId::v7(1_700_000_000_000, [n; 10])
}

pub(crate) fn device(n: u8) -> DeviceId {
    DeviceId::v7(1_600_000_000_000, [n; 10])
}

pub(crate) fn entry_id(n: u64) -> EntryId {
    EntryId::v7(1_700_000_000_000 + n, [7; 10])
}

pub(crate) fn card() -> Card {
    Card::new(card_id(1), plan()).unwrap()
}

pub(crate) fn time() -> Timestamp {
    "2024-05-01T10:00:00Z".parse().unwrap()
}

/// Entry number `n`, by device 1 and rater A.
pub(crate) fn entry(n: u64, body: Body) -> Entry {
    Entry::new(entry_id(n), device(1), n, time(), "A", body)
}

/// The same entry by another rater.
pub(crate) fn by(rater: &str, mut entry: Entry) -> Entry {
    rater.clone_into(&mut entry.rater);
    entry
}

pub(crate) fn position(name: &str) -> PositionId {
    PositionId::new(name).unwrap()
}

pub(crate) fn at(place: &str, characteristic: &str) -> At {
    At {
        position: position(place),
        characteristic: CharacteristicId::new(characteristic).unwrap(),
    }
}

pub(crate) fn about(place: &str, characteristic: Option<&str>) -> About {
    About {
        position: position(place),
        characteristic: characteristic.map(|name| CharacteristicId::new(name).unwrap()),
    }
}

pub(crate) fn rating(place: &str, characteristic: &str, look: Look) -> Body {
    Body::Rating {
        at: at(place, characteristic),
        look,
    }
}

/// A grade of the first intake lobe.
pub(crate) fn lobe(grade: Grade) -> Body {
    rating("cyl1/lobe/intake", "wear", Look::Grade(grade))
}

pub(crate) fn measurement(value: f64) -> Body {
    Body::Measurement {
        at: at("cyl1/liner", "bore"),
        value,
    }
}

/// A figure as it was typed.
pub(crate) fn typed(text: &str) -> Decimal {
    Decimal::new(text).unwrap()
}

/// One reading of a part that has no grid, in millimetres.
pub(crate) fn reading(place: &str, characteristic: &str, figure: &str) -> Body {
    Body::Reading {
        reading: Box::new(Reading {
            at: at(place, characteristic),
            spot: Spot::default(),
            as_new: false,
            unit: Unit::Mm,
            values: vec![typed(figure)],
            gauge: None,
            part_c: None,
        }),
    }
}

pub(crate) fn areas<'a>(shares: impl IntoIterator<Item = (&'a str, f64)>) -> Areas {
    Areas {
        shares: shares
            .into_iter()
            .map(|(level, percent)| (LevelId::new(level).unwrap(), percent))
            .collect(),
        painted: Vec::new(),
        read_off: None,
    }
}

pub(crate) fn state(name: &str) -> Look {
    Look::State(StateId::new(name).unwrap())
}

pub(crate) fn remark(text: &str) -> Body {
    Body::Remark {
        about: None,
        text: text.to_owned(),
    }
}

pub(crate) fn cause(place: &str, characteristic: Option<&str>, cause: Cause) -> Body {
    Body::Cause {
        about: about(place, characteristic),
        cause,
    }
}

pub(crate) fn void(entry: EntryId) -> Body {
    Body::Void {
        entry,
        reason: "slip of the finger".to_owned(),
    }
}

pub(crate) fn new_plan(plan: Plan) -> Body {
    Body::Plan {
        plan: Box::new(plan),
    }
}

pub(crate) fn name(text: &str) -> Body {
    Body::Fact {
        fact: Fact::Name(text.to_owned()),
    }
}

/// A card with these entries on it.
pub(crate) fn card_of(entries: impl IntoIterator<Item = Entry>) -> Card {
    let mut card = card();
    for entry in entries {
        card.append(entry).unwrap();
    }
    card
}
