//! Cards with liner bores that were measured.

use ringland_card::{
    Body, Card, CharacteristicId, EntryId, Fact, GaugeId, PlaceId, SpotId,
    gauging::{
        Decimal, Gauge, Makes, Material, Quantity, Reading, Size, SizeSheet, Spot, Unit, Wears,
    },
    plan::Repeatability,
    scale::{GaugedScale, Scale},
};
use uom::si::{f64::Length, length::kilometer};

use super::{at, card, look, part, place, plan, section, write};

pub(crate) fn decimal(text: &str) -> Decimal {
    Decimal::new(text).unwrap()
}

/// Bores of cast iron on two heights and two axes, and something that is rated beside them.
pub(crate) fn bores(positions: &[&str]) -> Card {
    let spots = |ids: &[&str]| ids.iter().map(|id| SpotId::new(id).unwrap()).collect();
    let scale = Scale::Gauged(GaugedScale {
        label: None,
        quantity: Quantity::Length,
        wears: Wears::Larger,
        makes: Makes::Furthest,
        stations: spots(&["top", "bottom"]),
        axes: spots(&["thrust", "pin"]),
        material: Some(Material::Iron),
    });
    let bore = look("bore", "bore", 1.0, Repeatability::Score(0.5));
    let seen = look("polished", "wear", 1.0, Repeatability::Score(0.5));
    let liner = place("liner", 1.0, positions, vec![seen, bore]);
    let sections = vec![section(
        "liners",
        1.0,
        vec![part("liners", 1.0, vec![liner])],
    )];
    let scales = vec![
        ("bore", scale),
        (
            "wear",
            Scale::Grade {
                scores: [10.0, 9.0, 7.0, 5.0, 2.5, 0.0],
            },
        ),
    ];
    card(plan(sections, scales))
}

pub(crate) fn gauge(card: &mut Card, unit: Unit, step: &str, expanded: &str) -> GaugeId {
    let id = GaugeId::v7(1, [4; 10]);
    let gauge = Gauge {
        id,
        name: "Bore gauge 1".to_owned(),
        unit,
        resolution: decimal(step),
        expanded: (!expanded.is_empty()).then(|| decimal(expanded)),
        k: 2.0,
        calibrated: None,
        material: None,
    };
    write(
        card,
        "A",
        Body::Gauge {
            gauge: Box::new(gauge),
        },
    );
    id
}

/// New from 130.000 to 130.020 mm, at most `limit` mm; none where that is empty.
pub(crate) fn sizes(card: &mut Card, limit: &str) {
    let mut size = Size::open(
        PlaceId::new("liner").unwrap(),
        CharacteristicId::new("bore").unwrap(),
        Unit::Mm,
    );
    size.new_low = Some(decimal("130.000"));
    size.new_high = Some(decimal("130.020"));
    size.limit_high = (!limit.is_empty()).then(|| decimal(limit));
    let sheet = SizeSheet {
        name: "Invented".to_owned(),
        source: String::new(),
        break_in_m: None,
        sizes: vec![size],
    };
    write(
        card,
        "A",
        Body::Sizes {
            sheet: Box::new(sheet),
        },
    );
}

pub(crate) fn run(card: &mut Card, km: f64) {
    let fact = Fact::DistanceM(Length::new::<kilometer>(km));
    write(card, "A", Body::Fact { fact });
}

pub(crate) fn reading(position: &str, spot: [&str; 2], typed: &str, unit: Unit) -> Reading {
    Reading {
        at: at(position, "bore"),
        spot: Spot {
            station: SpotId::new(spot[0]).ok(),
            axis: SpotId::new(spot[1]).ok(),
        },
        as_new: false,
        unit,
        values: typed.split(' ').map(decimal).collect(),
        gauge: None,
        part_c: None,
    }
}

pub(crate) fn read(card: &mut Card, reading: Reading) -> EntryId {
    write(
        card,
        "A",
        Body::Reading {
            reading: Box::new(reading),
        },
    )
}

/// The four spots of a bore in µm over 130 mm, in the order of the grid.
pub(crate) fn bore(card: &mut Card, position: &str, over: [i64; 4], named: Option<GaugeId>) {
    let spots = [
        ["top", "thrust"],
        ["top", "pin"],
        ["bottom", "thrust"],
        ["bottom", "pin"],
    ];
    for (spot, um) in spots.into_iter().zip(over) {
        let typed = format!("130.{um:03}");
        read(
            card,
            Reading {
                gauge: named,
                ..reading(position, spot, &typed, Unit::Mm)
            },
        );
    }
}
