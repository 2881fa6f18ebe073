//! An engine of the tests: measured, held against a size sheet, with names that mean harm.

use ringland_card::{
    Body, Card, CardId, CharacteristicId, Depth, DeviceId, Entry, EntryId, Fact, GaugeId, Grade,
    Layout, Look, PlaceId, SpotId, Timestamp, builtin,
    gauging::{Decimal, Gauge, Material, Reading, Size, SizeSheet, Spot, Unit},
    plan::LeafId,
};
use uom::si::{f64::Length, length::kilometer};

/// Writes on a card; ids and times are always the same.
pub(crate) fn write(card: &mut Card, rater: &str, body: Body) -> EntryId {
    let lamport = card.next_lamport();
    let mut random = [0; 10];
    random[..8].copy_from_slice(&lamport.to_be_bytes());
    let id = EntryId::v7(lamport, random);
    let device = DeviceId::v7(0, [9; 10]);
    let entry = Entry::new(id, device, lamport, Timestamp::UNIX_EPOCH, rater, body);
    card.append(entry).unwrap();
    id
}

/// The leaves of a characteristic of a place, along the engine.
pub(crate) fn row(card: &Card, place: &str, characteristic: &str) -> Vec<LeafId> {
    let (plan, index) = (card.plan(), card.index());
    let leaves = index.leaves().iter().enumerate();
    leaves
        .filter(|(_, leaf)| {
            leaf.place(plan).id.as_str() == place
                && leaf.characteristic(plan).id.as_str() == characteristic
        })
        .map(|(number, _)| LeafId(number))
        .collect()
}

/// One reading: figures as typed, parted by spaces, at a height and on an axis where the grid has them.
pub(crate) fn reading(card: &Card, leaf: LeafId, spot: [&str; 2], typed: &str) -> Reading {
    let id = |text: &str| (!text.is_empty()).then(|| SpotId::new(text).unwrap());
    Reading {
        at: card.index().leaves()[leaf.0].at(card.plan()),
        spot: Spot {
            station: id(spot[0]),
            axis: id(spot[1]),
        },
        as_new: false,
        unit: Unit::Mm,
        values: typed
            .split(' ')
            .map(|one| Decimal::new(one).unwrap())
            .collect(),
        gauge: None,
        part_c: None,
    }
}

fn read(card: &mut Card, reading: Reading) {
    write(
        card,
        "<one>",
        Body::Reading {
            reading: Box::new(reading),
        },
    );
}

fn size(place: &str, characteristic: &str, [new_low, new_high, limit]: [&str; 3]) -> Size {
    let some = |text: &str| (!text.is_empty()).then(|| Decimal::new(text).unwrap());
    let place = PlaceId::new(place).unwrap();
    let characteristic = CharacteristicId::new(characteristic).unwrap();
    Size {
        new_low: some(new_low),
        new_high: some(new_high),
        limit_high: some(limit),
        ..Size::open(place, characteristic, Unit::Mm)
    }
}

fn sheet() -> SizeSheet {
    let bore = Size {
        out_of_round: Decimal::new("0.05").ok(),
        taper: Decimal::new("0.05").ok(),
        ..size("liner", "bore", ["130.00", "130.02", "130.20"])
    };
    let pin = Size {
        limit_low: Decimal::new("54.95").ok(),
        ..size("pin", "diameter", ["54.99", "55.00", ""])
    };
    let clearance = size("main_journal", "oil_clearance", ["0.05", "0.09", "0.15"]);
    SizeSheet {
        name: "<b>Sheet</b>".to_owned(),
        source: "Manual, <p> 3".to_owned(),
        break_in_m: None,
        sizes: vec![bore, pin, clearance],
    }
}

/// Liner bores at three heights on two axes, one beyond its limit and one on it; clearances of the mains
/// without a gauge, the last of them too coarse; a pin that was read new and looks worse than it measures;
/// an end float that the sheet does not know.
pub(crate) fn measured() -> Card {
    let plan = builtin(&Layout::inline_six(), Depth::Full).unwrap();
    let mut card = Card::new(CardId::v7(1, [1; 10]), plan).unwrap();
    let facts = [
        Fact::Name("<b>Six</b> & \"co\"".to_owned()),
        Fact::DistanceM(Length::new::<kilometer>(800_000.0)),
    ];
    for fact in facts {
        write(&mut card, "one", Body::Fact { fact });
    }
    let gauge = Gauge {
        id: GaugeId::v7(1, [1; 10]),
        name: "<i>Bore gauge</i> 3".to_owned(),
        unit: Unit::Mm,
        resolution: Decimal::new("0.001").unwrap(),
        expanded: Decimal::new("0.004").ok(),
        k: 2.0,
        calibrated: Some(Timestamp::UNIX_EPOCH),
        material: Some(Material::Steel),
    };
    let gauge_id = gauge.id;
    write(
        &mut card,
        "one",
        Body::Gauge {
            gauge: Box::new(gauge),
        },
    );
    write(
        &mut card,
        "one",
        Body::Sizes {
            sheet: Box::new(sheet()),
        },
    );
    bores(&mut card, gauge_id);
    clearances(&mut card);
    pin(&mut card);
    let float = row(&card, "crank_float", "end_float");
    for leaf in float {
        let float = reading(&card, leaf, ["", ""], "0.21 0.22");
        read(&mut card, float);
    }
    card
}

fn bores(card: &mut Card, gauge: GaugeId) {
    let tops = [
        "130.082",
        "130.262",
        "130.199 130.201 130.200",
        "130.061",
        "130.055",
    ];
    for (leaf, top) in row(card, "liner", "bore").into_iter().zip(tops) {
        for (station, thrust) in [("top", top), ("middle", "130.04"), ("bottom", "130.02")] {
            for (axis, typed) in [("thrust", thrust), ("pin", "130.015")] {
                let reading = Reading {
                    gauge: Some(gauge),
                    part_c: Some(24.5),
                    ..reading(card, leaf, [station, axis], typed)
                };
                read(card, reading);
            }
        }
    }
}

fn clearances(card: &mut Card) {
    let figures = ["0.08", "0.09", "0.17", "0.11", "0.10", "0.149", "0.1"];
    for (leaf, typed) in row(card, "main_journal", "oil_clearance")
        .into_iter()
        .zip(figures)
    {
        let reading = reading(card, leaf, ["", ""], typed);
        read(card, reading);
    }
}

fn pin(card: &mut Card) {
    let Some(leaf) = row(card, "pin", "diameter").first().copied() else {
        return;
    };
    let now = reading(card, leaf, ["", ""], "54.9950");
    let new = Reading {
        as_new: true,
        ..reading(card, leaf, ["", ""], "54.9960")
    };
    read(card, now);
    read(card, new);
    let seen = row(card, "pin", "wear")[0];
    let at = card.index().leaves()[seen.0].at(card.plan());
    let look = Look::Grade(Grade::Severe);
    write(card, "<one>", Body::Rating { at, look });
}
