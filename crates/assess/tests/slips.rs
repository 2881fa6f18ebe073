//! Slips in typing: asked about where something speaks against a figure, and only there.
#![allow(clippy::unwrap_used, reason = "a test that cannot go on fails")]

use ringland_assess::gauging::slip::{Slip, slip};
use ringland_card::{
    Body, Card, CardId, CharacteristicId, Depth, DeviceId, Entry, EntryId, Layout, PlaceId, SpotId,
    builtin,
    entry::At,
    gauging::{Decimal, Reading, Size, SizeSheet, Spot, Unit},
    ids::PositionId,
};

struct Bench {
    card: Card,
    n: u64,
}

fn reading(position: &str, look: &str, spot: [&str; 2], figure: &str, unit: Unit) -> Reading {
    let id = |id: &str| (!id.is_empty()).then(|| SpotId::new(id).unwrap());
    Reading {
        at: At {
            position: PositionId::new(position).unwrap(),
            characteristic: CharacteristicId::new(look).unwrap(),
        },
        spot: Spot {
            station: id(spot[0]),
            axis: id(spot[1]),
        },
        as_new: false,
        unit,
        values: vec![Decimal::new(figure).unwrap()],
        gauge: None,
        part_c: None,
    }
}

impl Bench {
    fn new() -> Self {
        let plan = builtin(&Layout::inline_six(), Depth::Full).unwrap();
        let card = Card::new(CardId::v7(1, [1; 10]), plan).unwrap();
        Self { card, n: 0 }
    }

    fn write(&mut self, body: Body) {
        self.n += 1;
        let id = EntryId::v7(self.n, [3; 10]);
        let time = "2026-11-26T08:00:00Z".parse().unwrap();
        let entry = Entry::new(id, DeviceId::v7(1, [2; 10]), self.n, time, "A", body);
        self.card.append(entry).unwrap();
    }

    fn keep(&mut self, reading: Reading) {
        let reading = Box::new(reading);
        self.write(Body::Reading { reading });
    }

    fn bore(&mut self, cylinder: u8, spot: [&str; 2], figure: &str) {
        let position = format!("cyl{cylinder}/liner");
        self.keep(reading(&position, "bore", spot, figure, Unit::Mm));
    }

    fn slip(&self, reading: &Reading) -> Option<Slip> {
        let standing = self.card.standing();
        let leaf = self
            .card
            .index()
            .find(self.card.plan(), &reading.at)
            .unwrap();
        slip(&standing, leaf, reading)
    }

    fn slip_of_bore(&self, spot: [&str; 2], figure: &str, unit: Unit) -> Option<Slip> {
        self.slip(&reading("cyl3/liner", "bore", spot, figure, unit))
    }
}

const TOP: [&str; 2] = ["top", "thrust"];

#[test]
fn nothing_speaks_against_the_first_figure() {
    assert_eq!(Bench::new().slip_of_bore(TOP, "12.9", Unit::Mm), None);
}

/// "12.9 mm on a 129 mm bore".
#[test]
fn a_slipped_decimal_point_is_told_from_the_neighbours() {
    let mut bench = Bench::new();
    bench.bore(1, TOP, "129.02");
    bench.bore(2, TOP, "129.03");
    let slip = bench.slip_of_bore(TOP, "12.9", Unit::Mm);
    assert!(
        matches!(slip, Some(Slip::Decimal { near }) if (near - 129.025).abs() < 1e-9),
        "{slip:?}"
    );
    for figure in ["1290.2", "1.2902"] {
        assert!(matches!(
            bench.slip_of_bore(TOP, figure, Unit::Mm),
            Some(Slip::Decimal { .. })
        ));
    }
    for fine in ["129.02", "129.10", "129.2", "130.0"] {
        assert_eq!(bench.slip_of_bore(TOP, fine, Unit::Mm), None, "{fine}");
    }
    assert!(matches!(
        bench.slip_of_bore(TOP, "140", Unit::Mm),
        Some(Slip::Far { .. })
    ));
}

#[test]
fn another_unit_is_told() {
    let mut bench = Bench::new();
    bench.bore(1, TOP, "129.02");
    // 5.0795 in is 129.02 mm; typed as millimetres, or millimetres typed as inches.
    let inches = bench.slip_of_bore(TOP, "5.0795", Unit::Mm);
    assert_eq!(
        inches,
        Some(Slip::Unit {
            looks_like: Unit::In
        })
    );
    let millimetres = bench.slip_of_bore(TOP, "129.02", Unit::In);
    assert_eq!(
        millimetres,
        Some(Slip::Unit {
            looks_like: Unit::Mm
        })
    );
    assert_eq!(bench.slip_of_bore(TOP, "5.0795", Unit::In), None);
}

#[test]
fn the_size_sheet_stands_in_for_neighbours() {
    let mut bench = Bench::new();
    let place = PlaceId::new("liner").unwrap();
    let mut size = Size::open(place, CharacteristicId::new("bore").unwrap(), Unit::Mm);
    size.new_low = Some(Decimal::new("130.000").unwrap());
    size.new_high = Some(Decimal::new("130.025").unwrap());
    size.limit_high = Some(Decimal::new("130.130").unwrap());
    bench.write(Body::Sizes {
        sheet: Box::new(SizeSheet {
            name: "Typed in".to_owned(),
            source: String::new(),
            break_in_m: None,
            sizes: vec![size],
        }),
    });
    assert!(matches!(
        bench.slip_of_bore(TOP, "13.004", Unit::Mm),
        Some(Slip::Decimal { .. })
    ));
    assert_eq!(bench.slip_of_bore(TOP, "130.3", Unit::Mm), None);
}

#[test]
fn swapped_axes_are_told_from_the_other_heights() {
    let mut bench = Bench::new();
    for cylinder in [1, 2] {
        bench.bore(cylinder, TOP, "130.045");
        bench.bore(cylinder, ["top", "pin"], "130.031");
    }
    bench.bore(3, TOP, "130.030");
    let slip = bench.slip_of_bore(["top", "pin"], "130.046", Unit::Mm);
    let Some(Slip::Swapped { here, elsewhere }) = slip else {
        panic!("{slip:?}");
    };
    assert_eq!((here.as_str(), elsewhere.as_str()), ("pin", "thrust"));
    assert_eq!(
        bench.slip_of_bore(["top", "pin"], "130.029", Unit::Mm),
        None
    );
}

/// Gaps and clearances vary by their own size: twice as much is no slip, ten times is.
#[test]
fn small_sizes_are_believed_further() {
    let mut bench = Bench::new();
    let gap = |cylinder: u8, figure: &str| {
        let position = format!("cyl{cylinder}/ring/top");
        reading(&position, "end_gap", ["", ""], figure, Unit::Mm)
    };
    bench.keep(gap(1, "0.45"));
    bench.keep(gap(2, "0.50"));
    assert_eq!(bench.slip(&gap(3, "0.95")), None);
    assert!(matches!(bench.slip(&gap(3, "4.5")), Some(Slip::Far { .. })));
}

/// The height and the base circle of a lobe are two sizes: neither is a slip of the other.
#[test]
fn the_two_readings_of_a_lobe_are_not_held_against_each_other() {
    let mut bench = Bench::new();
    let lobe = |cylinder: u8, station: &str, figure: &str| {
        let position = format!("cyl{cylinder}/lobe/intake");
        reading(&position, "lift", [station, ""], figure, Unit::Mm)
    };
    bench.keep(lobe(1, "height", "52.10"));
    assert_eq!(bench.slip(&lobe(1, "base_circle", "44.02")), None);
    bench.keep(lobe(1, "base_circle", "44.02"));
    assert!(bench.slip(&lobe(2, "height", "44.02")).is_some());
}
