//! Sizes of one's own: scales that are read with a gauge, added to a plan and taken out again.

use ringland_card::{
    PlanIndex, Scale, ScaleId,
    gauging::{Makes, Material, Quantity, Wears},
    plan::{Axis, Change, EditError, NewRow, NewSize, PlanItem, Under},
    scale::{MOST_SPOTS, ScaleError},
};

use crate::bench::plan;

fn barrel() -> NewSize {
    NewSize {
        name: "Barrel face".to_owned(),
        quantity: Quantity::Length,
        wears: Wears::Smaller,
        makes: Makes::Furthest,
        stations: "top, front  face; Ño".to_owned(),
        axes: "thrust,pin".to_owned(),
        material: Some(Material::Steel),
    }
}

#[test]
fn a_size_of_ones_own_is_a_scale_that_rows_can_use() {
    let parent = plan();
    let mut own = parent.clone();
    let item = own.add_size(&barrel()).unwrap();
    let PlanItem::Scale(id) = &item else {
        panic!("{item:?}");
    };
    assert_eq!(id.as_str(), "barrel_face");
    let Some(Scale::Gauged(scale)) = own.scale(id) else {
        panic!("{:?}", own.scale(id));
    };
    assert_eq!(scale.label.as_deref(), Some("Barrel face"));
    let spots =
        |spots: &[ringland_card::SpotId]| spots.iter().map(ToString::to_string).collect::<Vec<_>>();
    assert_eq!(spots(&scale.stations), ["top", "front_face", "no"]);
    assert_eq!(spots(&scale.axes), ["thrust", "pin"]);
    assert_eq!(scale.spots(), 6);
    let differs = own.differences(&parent);
    assert_eq!(differs.len(), 1, "{differs:?}");
    assert_eq!(
        (&differs[0].item, &differs[0].change),
        (&item, &Change::Added)
    );
    // The same name again is another scale.
    assert_eq!(
        own.add_size(&barrel()).unwrap(),
        PlanItem::Scale(ScaleId::new("barrel_face_2").unwrap())
    );
    own.switch_off(&PlanItem::Scale(ScaleId::new("barrel_face_2").unwrap()))
        .unwrap();

    let (section, part) = (
        own.sections[0].id.clone(),
        own.sections[0].parts[0].id.clone(),
    );
    let row = NewRow {
        under: Under::Part(section, part),
        name: "Pump barrel".to_owned(),
        axis: Axis::Cylinder,
        each: 1,
        look: "Face".to_owned(),
        scale: id.clone(),
    };
    let look = own.add_row(&row).unwrap();
    own.check().unwrap();
    assert_eq!(own.rows_on(id), 1);
    let index = PlanIndex::of(&own);
    let gauged = |index: &PlanIndex| index.leaves().iter().filter(|leaf| leaf.gauged).count();
    let before = gauged(&PlanIndex::of(&parent));
    assert_eq!(gauged(&index), before + own.layout.cylinder_names().len());
    // In use it stays; without its row it goes, and nothing is left of it.
    assert_eq!(own.switch_off(&item), Err(EditError::InUse { rows: 1 }));
    own.switch_off(&look).unwrap();
    own.switch_off(&item).unwrap();
    assert!(own.differences(&parent).is_empty());
}

#[test]
fn a_size_that_contradicts_itself_is_refused_and_changes_nothing() {
    let size = barrel;
    let cases: [(NewSize, EditError); 5] = [
        (
            NewSize {
                name: " ".to_owned(),
                ..size()
            },
            EditError::NoName,
        ),
        (
            NewSize {
                name: "x".repeat(121),
                ..size()
            },
            EditError::LongName { given: 121 },
        ),
        (
            NewSize {
                stations: "top, Top".to_owned(),
                ..size()
            },
            EditError::Scale(ScaleError::Twice {
                id: "top".to_owned(),
            }),
        ),
        (
            NewSize {
                makes: Makes::Difference,
                ..size()
            },
            EditError::Scale(ScaleError::Difference),
        ),
        (
            NewSize {
                stations: (0..=MOST_SPOTS)
                    .map(|n| format!("s{n}"))
                    .collect::<Vec<_>>()
                    .join(","),
                ..size()
            },
            EditError::Scale(ScaleError::TooManySpots {
                given: MOST_SPOTS + 1,
            }),
        ),
    ];
    for (bad, why) in cases {
        let mut own = plan();
        assert_eq!(own.add_size(&bad), Err(why));
        assert_eq!(own, plan());
    }
    // What is rated by eye is no size, and stays.
    let mut own = plan();
    let by_eye = own
        .scales
        .iter()
        .find(|(_, scale)| !matches!(scale, Scale::Gauged(_)));
    let by_eye = PlanItem::Scale(by_eye.unwrap().0.clone());
    assert_eq!(own.switch_off(&by_eye), Err(EditError::NotThere));
}
