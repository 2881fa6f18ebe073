//! Readings, gauges and size sheets.

use ringland_card::{
    AppendError, Body, Card, CharacteristicId, Entry, GaugeId, LookError, PlaceId, SpotId, file,
    gauging::{
        Decimal, Gauge, GaugeError, Quantity, Reading, ReadingError, Size, SizeError, SizeField,
        SizeSheet, Spot, Unit,
    },
};

use crate::bench::{self, card_of, entry, reading, typed, void};

fn changed(body: &Body, change: impl FnOnce(&mut Reading)) -> Body {
    let Body::Reading { reading } = body else {
        unreachable!()
    };
    let mut reading = reading.clone();
    change(&mut reading);
    Body::Reading { reading }
}

fn refused(body: Body) -> ReadingError {
    match bench::card().append(entry(1, body)).unwrap_err() {
        AppendError::Look(LookError::Reading(why)) => why,
        other => panic!("{other}"),
    }
}

fn gauge() -> Gauge {
    Gauge {
        id: GaugeId::v7(1, [1; 10]),
        name: "Bore gauge 3".to_owned(),
        unit: Unit::Mm,
        resolution: typed("0.001"),
        expanded: Some(typed("0.004")),
        k: 2.0,
        calibrated: None,
        material: None,
    }
}

fn size(change: impl FnOnce(&mut Size)) -> SizeSheet {
    let place = PlaceId::new("pin").unwrap();
    let mut size = Size::open(place, CharacteristicId::new("diameter").unwrap(), Unit::Mm);
    change(&mut size);
    SizeSheet {
        name: "As typed".to_owned(),
        source: String::new(),
        break_in_m: None,
        sizes: vec![size],
    }
}

fn put(size: &mut Size, field: SizeField, figure: &str) {
    *size.field_mut(field) = Some(typed(figure));
}

#[test]
fn a_number_stays_as_it_was_typed() {
    for text in ["129.410", "0.05", "-0.002", "0", "007.50"] {
        assert_eq!(typed(text).as_str(), text);
        assert_eq!(
            typed(text).value().to_bits(),
            text.parse::<f64>().unwrap().to_bits()
        );
    }
    assert_eq!(typed("129.410").places(), 3);
    for text in [
        "",
        ".",
        "1.",
        ".5",
        "1,5",
        "1e3",
        "+1",
        "--1",
        "1.2.3",
        " 1",
        "NaN",
        "1234567890123456",
    ] {
        assert!(Decimal::new(text).is_err(), "{text}");
    }
}

/// Handbook figures: an inch is 25.4 mm exactly, an avoirdupois ounce 28.349523125 g (NIST SP 811, B.8).
#[test]
fn units_go_to_si_and_back() {
    let near = |a: f64, b: f64| assert!((a - b).abs() <= 1e-12 * b.abs(), "{a} {b}");
    near(Unit::In.to_si(1.0), 0.0254);
    near(Unit::Mil.to_si(1.0), 25.4e-6);
    near(Unit::Mm.to_si(129.41), 0.129_41);
    near(Unit::Um.to_si(5.0), 5e-6);
    near(Unit::Oz.to_si(1.0), 0.028_349_523_125);
    near(Unit::G.to_si(42.1), 0.0421);
    near(Unit::Mg.to_si(1.0), 1e-6);
    for unit in Unit::ALL {
        near(unit.of_si(unit.to_si(3.25)), 3.25);
        assert_eq!(Unit::parse(unit.as_str()), Some(unit));
    }
}

#[test]
fn the_last_reading_of_a_rater_on_a_spot_holds() {
    let one = reading("cyl1/pin", "diameter", "51.998");
    let two = reading("cyl1/pin", "diameter", "51.996");
    let new = changed(&one, |reading| reading.as_new = true);
    let card = card_of([
        entry(1, one.clone()),
        entry(2, two),
        entry(3, new),
        bench::by("B", entry(4, one)),
        entry(5, void(bench::entry_id(2))),
    ]);
    let standing = card.standing();
    let leaf = card
        .index()
        .find(card.plan(), &bench::at("cyl1/pin", "diameter"))
        .unwrap();
    let held: Vec<u64> = standing.readings[leaf.0]
        .values()
        .map(|entry| entry.lamport)
        .collect();
    assert_eq!(held, [1, 4, 3]);
    assert!(standing.answered(leaf) && !standing.not_inspected(leaf));
}

#[test]
fn a_reading_that_does_not_fit_is_refused_with_the_field() {
    let pin = reading("cyl1/pin", "diameter", "52");
    let spot = |id| Some(SpotId::new(id).unwrap());
    assert!(matches!(
        refused(reading("cyl1/pin", "wear", "1")),
        ReadingError::NotGauged { .. }
    ));
    let stray = changed(&pin, |reading| reading.spot.axis = spot("thrust"));
    assert!(matches!(refused(stray), ReadingError::Spot { .. }));
    let lift = reading("cyl1/lobe/intake", "lift", "52");
    assert!(matches!(refused(lift.clone()), ReadingError::Spot { .. }));
    // A difference has two readings and no more.
    let more = changed(&lift, |reading| reading.spot.station = spot("extra_1"));
    assert!(matches!(refused(more), ReadingError::Spot { .. }));
    let grams = changed(&pin, |reading| reading.unit = Unit::G);
    assert!(matches!(refused(grams), ReadingError::Unit { .. }));
    let none = changed(&pin, |reading| reading.values.clear());
    assert!(matches!(
        refused(none),
        ReadingError::Repeats { given: 0, .. }
    ));
    let many = changed(&pin, |reading| reading.values = vec![typed("1"); 51]);
    assert!(matches!(
        refused(many),
        ReadingError::Repeats { given: 51, .. }
    ));
    for celsius in [201.0, -61.0, f64::NAN, f64::INFINITY] {
        let hot = changed(&pin, |reading| reading.part_c = Some(celsius));
        assert!(matches!(refused(hot), ReadingError::Temperature { .. }));
    }
}

#[test]
fn a_height_beyond_the_plan_may_be_read_where_there_are_heights() {
    let mut card = Card::new(
        bench::card_id(1),
        ringland_card::builtin(
            &ringland_card::Layout::inline_six(),
            ringland_card::Depth::Full,
        )
        .unwrap(),
    )
    .unwrap();
    let at = |station: &str| Spot {
        station: Some(SpotId::new(station).unwrap()),
        axis: Some(SpotId::new("thrust").unwrap()),
    };
    let bore = reading("cyl1/liner", "bore", "130.02");
    let body = |station: &str| changed(&bore, |reading| reading.spot = at(station));
    card.append(entry(1, body("top"))).unwrap();
    card.append(entry(2, body("extra_1"))).unwrap();
    assert!(card.append(entry(3, body("extra_10"))).is_err());
}

#[test]
fn a_gauge_that_contradicts_itself_is_refused() {
    let refused = |change: &dyn Fn(&mut Gauge)| {
        let mut gauge = gauge();
        change(&mut gauge);
        let gauge = Box::new(gauge);
        match bench::card().append(entry(1, Body::Gauge { gauge })) {
            Err(AppendError::Gauge(why)) => why,
            other => panic!("{other:?}"),
        }
    };
    assert!(matches!(
        refused(&|g| g.name.clear()),
        GaugeError::Name { given: 0 }
    ));
    assert!(matches!(
        refused(&|g| g.resolution = typed("0.000")),
        GaugeError::Resolution { .. }
    ));
    assert!(matches!(
        refused(&|g| g.expanded = Some(typed("-0.1"))),
        GaugeError::Expanded { .. }
    ));
    for k in [0.9, 10.1, f64::NAN] {
        assert!(matches!(
            refused(&move |g| g.k = k),
            GaugeError::Coverage { .. }
        ));
    }
    let mut card = bench::card();
    card.append(entry(
        1,
        Body::Gauge {
            gauge: Box::new(gauge()),
        },
    ))
    .unwrap();
    let known = card
        .standing()
        .gauge(gauge().id)
        .unwrap()
        .calibration_si()
        .unwrap();
    assert!((known - 2e-6).abs() < 1e-18);
}

/// Issue by issue: which side, which field.
#[test]
fn a_size_sheet_that_contradicts_itself_is_refused_with_the_field() {
    use SizeField::{BreakIn, LimitHigh, LimitLow, NewHigh, NewLow, OutOfRound, Taper};
    let why = |fields: &[(SizeField, &str)]| {
        let sheet = size(|size| {
            for (field, figure) in fields {
                put(size, *field, figure);
            }
        });
        sheet.check_for(&bench::plan()).unwrap_err()
    };
    assert!(matches!(
        why(&[(NewLow, "51.99")]),
        SizeError::HalfRange { field: NewHigh, .. }
    ));
    assert!(matches!(
        why(&[(NewHigh, "51.99")]),
        SizeError::HalfRange { field: NewLow, .. }
    ));
    assert!(matches!(
        why(&[(NewLow, "52.01"), (NewHigh, "52.00")]),
        SizeError::Reversed { .. }
    ));
    let new = [(NewLow, "51.990"), (NewHigh, "52.000")];
    let with = |more: (SizeField, &'static str)| why(&[new[0], new[1], more]);
    assert!(matches!(
        with((LimitLow, "51.995")),
        SizeError::LimitInside {
            field: LimitLow,
            ..
        }
    ));
    assert!(matches!(
        with((LimitLow, "52.5")),
        SizeError::LimitInside {
            field: LimitLow,
            ..
        }
    ));
    assert!(matches!(
        with((LimitHigh, "52.1")),
        SizeError::WrongSide {
            field: LimitHigh,
            ..
        }
    ));
    for field in [OutOfRound, Taper] {
        assert!(matches!(with((field, "0")), SizeError::Shape { .. }));
    }
    assert!(matches!(
        with((BreakIn, "-0.01")),
        SizeError::BreakIn { .. }
    ));
    let grams = size(|size| {
        size.unit = Unit::G;
        put(size, LimitHigh, "52.1");
    });
    let why = grams.check_for(&bench::plan()).unwrap_err();
    assert_eq!(
        why.to_string(),
        "`pin: diameter` is measured in mm, um, in, mil, not in g"
    );
    let in_mass = SizeError::Unit {
        of: "pin: diameter".to_owned(),
        given: Unit::G,
        quantity: Quantity::Length,
    };
    assert_eq!(why, in_mass);
    let mut twice = size(|_| {});
    twice.sizes.push(twice.sizes[0].clone());
    assert!(matches!(twice.check(), Err(SizeError::Twice { .. })));
    let fine = size(|size| {
        put(size, NewLow, "51.990");
        put(size, NewHigh, "52.000");
        put(size, LimitLow, "51.965");
    });
    fine.check_for(&bench::plan()).unwrap();
}

/// Every size that the plan has no use for is told, not the first alone; and none of them is used.
#[test]
fn sizes_that_do_not_fit_the_plan_are_told_one_by_one() {
    let plan = bench::plan();
    let mut sheet = size(|size| put(size, SizeField::LimitLow, "51.965"));
    assert_eq!(sheet.misfits(&plan).count(), 0);
    let mass = Size {
        unit: Unit::G,
        ..sheet.sizes[0].clone()
    };
    let place = PlaceId::new("piston").unwrap();
    let skirt = CharacteristicId::new("skirt_diameter").unwrap();
    sheet.sizes = vec![
        mass.clone(),
        Size {
            place: place.clone(),
            characteristic: skirt.clone(),
            ..mass
        },
        // What the plan does not measure fits whatever its unit.
        Size::open(
            place.clone(),
            CharacteristicId::new("mass").unwrap(),
            Unit::G,
        ),
    ];
    sheet.check().unwrap();
    let told: Vec<String> = sheet.misfits(&plan).map(|why| why.to_string()).collect();
    let measured = "is measured in mm, um, in, mil, not in g";
    assert_eq!(
        told,
        [
            format!("`piston: skirt_diameter` {measured}"),
            format!("`pin: diameter` {measured}"),
        ]
    );
    assert!(sheet.size(&place, &skirt).is_some());
    assert_eq!(sheet.size_in(Quantity::Length, &place, &skirt), None);
}

#[test]
fn measurements_come_through_a_file_as_they_were_typed() {
    let mut card = bench::card();
    let entries: [Entry; 3] = [
        entry(
            1,
            Body::Gauge {
                gauge: Box::new(gauge()),
            },
        ),
        entry(
            2,
            Body::Sizes {
                sheet: Box::new(size(|size| put(size, SizeField::LimitLow, "51.9650"))),
            },
        ),
        entry(
            3,
            changed(&reading("cyl1/pin", "diameter", "51.9900"), |reading| {
                reading.gauge = Some(gauge().id);
                reading.part_c = Some(23.5);
                reading.values.push(typed("51.991"));
            }),
        ),
    ];
    for entry in entries {
        card.append(entry).unwrap();
    }
    let text = file::write(&card);
    assert!(text.contains("\"51.9900\"") && text.contains("\"51.9650\""));
    let again = file::read(text.as_bytes()).unwrap();
    assert!(again.digest_matches);
    assert_eq!(again.card, card);
    assert_eq!(file::write(&again.card), text);
}
