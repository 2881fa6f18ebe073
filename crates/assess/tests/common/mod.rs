//! Small plans and cards for tests.
#![allow(dead_code, reason = "each test file uses its own part of this")]
#![allow(
    clippy::unwrap_used,
    reason = "a test helper stops the test that it helps"
)]

pub(crate) mod bores;

use ringland_assess::{Assessment, Tree, assess};
use ringland_card::{
    At, Body, Card, CardId, CharacteristicId, Depth, DeviceId, Entry, EntryId, Layout, Look,
    PartId, PlaceId, Plan, PositionId, Scale, ScaleId, SectionId, Timestamp,
    plan::{Axis, Characteristic, Part, Place, Position, Regime, Repeatability, Section, builtin},
};

pub(crate) fn section(id: &str, weight: f64, parts: Vec<Part>) -> Section {
    Section {
        id: SectionId::new(id).unwrap(),
        label: None,
        weight,
        parts,
    }
}

pub(crate) fn part(id: &str, weight: f64, places: Vec<Place>) -> Part {
    Part {
        id: PartId::new(id).unwrap(),
        label: None,
        weight,
        places,
    }
}

pub(crate) fn place(
    id: &str,
    weight: f64,
    positions: &[&str],
    looks: Vec<Characteristic>,
) -> Place {
    let position = |id: &&str| Position {
        id: PositionId::new(id).unwrap(),
        column: (*id).to_owned(),
    };
    Place {
        id: PlaceId::new(id).unwrap(),
        label: None,
        axis: Axis::Each,
        weight,
        positions: positions.iter().map(position).collect(),
        looks,
    }
}

pub(crate) fn look(id: &str, scale: &str, weight: f64, u_rep: Repeatability) -> Characteristic {
    Characteristic {
        id: CharacteristicId::new(id).unwrap(),
        label: None,
        scale: ScaleId::new(scale).unwrap(),
        weight,
        regime: Regime::None,
        u_rep,
        same_surface: None,
    }
}

/// A plan with the built-in scales and those given.
pub(crate) fn plan(sections: Vec<Section>, scales: Vec<(&str, Scale)>) -> Plan {
    let mut plan = builtin(&Layout::inline_six(), Depth::Short).unwrap();
    plan.sections = sections;
    plan.caps.clear();
    for (id, scale) in scales {
        plan.scales.insert(ScaleId::new(id).unwrap(), scale);
    }
    plan.check().unwrap();
    plan
}

pub(crate) fn card(plan: Plan) -> Card {
    Card::new(CardId::v7(1, [1; 10]), plan).unwrap()
}

pub(crate) fn at(position: &str, characteristic: &str) -> At {
    At {
        position: PositionId::new(position).unwrap(),
        characteristic: CharacteristicId::new(characteristic).unwrap(),
    }
}

/// Writes an entry with the next counter.
pub(crate) fn write(card: &mut Card, rater: &str, body: Body) -> EntryId {
    let lamport = card.next_lamport();
    let mut random = [0; 10];
    random[..8].copy_from_slice(&lamport.to_be_bytes());
    let id = EntryId::v7(lamport, random);
    let device = DeviceId::v7(0, [9; 10]);
    card.append(Entry::new(
        id,
        device,
        lamport,
        Timestamp::UNIX_EPOCH,
        rater,
        body,
    ))
    .unwrap();
    id
}

pub(crate) fn rate(
    card: &mut Card,
    rater: &str,
    position: &str,
    what: &str,
    look: Look,
) -> EntryId {
    write(
        card,
        rater,
        Body::Rating {
            at: at(position, what),
            look,
        },
    )
}

pub(crate) fn assessed(card: &Card) -> (Tree, Assessment) {
    let tree = Tree::of(card.plan());
    let result = assess(&card.standing(), &tree);
    (tree, result)
}
