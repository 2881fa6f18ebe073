//! Areas that were read off a photo: what the card keeps of it, and what it refuses.

use ringland_card::{
    AppendError, Areas, Body, LevelId, Look, LookError,
    file::{read, write},
    photo::{
        Cut, LeftOut, MOST_CORNERS, MOST_LEFT_OUT, Outside, PhotoAreas, PhotoAreasError, Point,
        Region, Shade, ShadeClass,
    },
};

use crate::{
    bench::{areas, card_of, entry, entry_id, rating, remark},
    photos::{png, taken},
};

fn point((x, y): (f64, f64)) -> Point {
    Point { x, y }
}

fn points(places: &[(f64, f64)]) -> Vec<Point> {
    places.iter().copied().map(point).collect()
}

fn class(level: &str, percent: f64) -> ShadeClass {
    ShadeClass {
        level: LevelId::new(level).unwrap(),
        percent,
    }
}

fn cut(at: u8, below: f64, above: f64) -> Cut {
    Cut { at, below, above }
}

/// A reading of the photo of entry 1, 40 pixels wide and 30 high, in two classes.
fn two_classes() -> PhotoAreas {
    PhotoAreas {
        photo: entry_id(1),
        region: Region {
            corners: points(&[(0.0, 0.0), (40.0, 0.0), (40.0, 30.0)]),
            left_out: vec![
                LeftOut::Outline {
                    corners: points(&[(1.0, 1.0), (5.0, 1.0), (5.0, 4.5)]),
                },
                LeftOut::Brush {
                    way: points(&[(8.0, 2.0)]),
                    width: 6.0,
                },
            ],
            rectangle: Some([(0.0, 0.0), (40.0, 2.0), (38.0, 30.0), (1.0, 28.0)].map(point)),
        },
        shade: Shade::Yellowness,
        cuts: vec![cut(97, 2.5, 4.0)],
        classes: vec![class("heavy_carbon", 37.5), class("clean", 62.5)],
    }
}

fn look(read: PhotoAreas) -> Body {
    let areas = Areas {
        read_off: Some(Box::new(read)),
        ..areas([("heavy_carbon", 37.5)])
    };
    rating("cyl1/piston", "land_1", Look::Areas(areas))
}

#[test]
fn how_it_was_read_comes_back_from_the_file() {
    let card = card_of([
        entry(1, taken(&png(40, 30, 1))),
        entry(2, look(two_classes())),
    ]);
    let text = write(&card);
    let opened = read(text.as_bytes()).unwrap();
    assert!(opened.digest_matches);
    assert_eq!(opened.card, card);
    assert!(text.contains("\"read_off\"") && text.contains("\"shape\":\"brush\""));
}

#[test]
fn what_was_changed_by_hand_is_known() {
    let read = |shares: &[(&str, f64)]| Areas {
        read_off: Some(Box::new(two_classes())),
        ..areas(shares.iter().copied())
    };
    assert!(!read(&[("heavy_carbon", 37.5)]).changed_by_hand());
    assert!(read(&[("heavy_carbon", 40.0)]).changed_by_hand());
    assert!(read(&[]).changed_by_hand());
    assert!(read(&[("heavy_carbon", 37.5), ("amber_lacquer", 1.0)]).changed_by_hand());
    assert!(!areas([("amber_lacquer", 3.0)]).changed_by_hand());
    let elsewhere = read(&[("heavy_carbon", 37.5)]).without_photo();
    assert_eq!(elsewhere, areas([("heavy_carbon", 37.5)]));
    // Two classes of one level are one share.
    let mut twice = two_classes();
    twice.cuts.push(cut(200, 0.0, 0.0));
    twice.classes = vec![
        class("heavy_carbon", 20.0),
        class("clean", 50.0),
        class("heavy_carbon", 30.0),
    ];
    assert_eq!(twice.shares(), areas([("heavy_carbon", 50.0)]).shares);
}

/// The reading with something changed.
fn changed(change: impl Fn(&mut PhotoAreas)) -> PhotoAreas {
    let mut read = two_classes();
    change(&mut read);
    read
}

/// Why a reading is refused.
fn refused(read: PhotoAreas) -> PhotoAreasError {
    let mut card = card_of([entry(1, taken(&png(40, 30, 1)))]);
    match card.append(entry(2, look(read))) {
        Err(AppendError::Look(LookError::ReadOff { why, .. })) => why,
        other => panic!("{other:?}"),
    }
}

#[test]
fn a_region_that_cannot_be_one_is_refused() {
    let outside = |x, y| {
        PhotoAreasError::Outside(Outside {
            x,
            y,
            width: 40,
            height: 30,
        })
    };
    let brush = |places: &[(f64, f64)], width| LeftOut::Brush {
        way: points(places),
        width,
    };
    let corners = |given| PhotoAreasError::Corners { given };
    let at = [(1.0, 1.0); MOST_CORNERS + 1];
    let with_brush = |places: &[(f64, f64)], width| {
        changed(|read| read.region.left_out[1] = brush(places, width))
    };
    let cases = [
        (
            changed(|read| read.region.corners[1].x = 40.5),
            outside(40.5, 0.0),
        ),
        (with_brush(&[(0.0, -1.0)], 3.0), outside(0.0, -1.0)),
        (
            changed(|read| read.region.rectangle = Some([(41.0, 1.0); 4].map(point))),
            outside(41.0, 1.0),
        ),
        (changed(|read| read.region.corners.truncate(2)), corners(2)),
        (
            changed(|read| {
                let corners = points(&at[..2]);
                read.region.left_out[0] = LeftOut::Outline { corners };
            }),
            corners(2),
        ),
        (with_brush(&at, 3.0), corners(MOST_CORNERS + 1)),
        (
            with_brush(&at[..1], 0.5),
            PhotoAreasError::Brush { given: 0.5 },
        ),
        (
            changed(|read| {
                let part = read.region.left_out[0].clone();
                read.region.left_out = vec![part; MOST_LEFT_OUT + 1];
            }),
            PhotoAreasError::LeftOut {
                given: MOST_LEFT_OUT + 1,
            },
        ),
    ];
    for (read, expected) in cases {
        assert_eq!(refused(read), expected);
    }
}

#[test]
fn classes_that_cannot_be_ones_are_refused() {
    let three = [
        class("clean", 20.0),
        class("amber_lacquer", 30.0),
        class("amber_lacquer", 50.0),
    ];
    let uneven = |cuts, classes| PhotoAreasError::Cuts { cuts, classes };
    let cases = [
        (
            changed(|read| {
                read.cuts = vec![cut(97, 0.0, 0.0), cut(97, 0.0, 0.0)];
                read.classes = three.to_vec();
            }),
            uneven(2, 3),
        ),
        (changed(|read| read.classes = three.to_vec()), uneven(1, 3)),
        (
            changed(|read| read.classes[0].percent = 37.0),
            PhotoAreasError::Percent,
        ),
        (
            changed(|read| read.cuts[0].below = 37.6),
            PhotoAreasError::Percent,
        ),
        (
            changed(|read| read.cuts[0].above = -0.1),
            PhotoAreasError::Percent,
        ),
    ];
    for (read, expected) in cases {
        assert_eq!(refused(read), expected);
    }
    let mut card = card_of([entry(1, taken(&png(40, 30, 1)))]);
    let unknown = changed(|read| read.classes[1] = class("rust", 62.5));
    assert!(matches!(
        card.append(entry(2, look(unknown))),
        Err(AppendError::Look(LookError::UnknownLevel { .. }))
    ));
    card.append(entry(2, look(two_classes()))).unwrap();
}

#[test]
fn only_a_photo_that_is_there_can_be_read() {
    let mut card = card_of([entry(1, remark("x"))]);
    assert_eq!(
        card.append(entry(2, look(two_classes()))),
        Err(AppendError::NotAPhoto {
            target: entry_id(1)
        })
    );
    let mut nowhere = two_classes();
    nowhere.photo = entry_id(9);
    assert_eq!(
        card.append(entry(2, look(nowhere))),
        Err(AppendError::UnknownTarget {
            target: entry_id(9)
        })
    );
}
