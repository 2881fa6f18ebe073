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
    assert!(read(&[("heavy_carbon", 37.5), ("amber", 1.0)]).changed_by_hand());
    assert!(!areas([("amber", 3.0)]).changed_by_hand());
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

#[test]
fn a_reading_that_cannot_be_one_is_refused() {
    let change = |change: &dyn Fn(&mut PhotoAreas)| {
        let mut read = two_classes();
        change(&mut read);
        read
    };
    let three = [
        class("clean", 20.0),
        class("amber", 30.0),
        class("amber", 50.0),
    ];
    let cases: [(PhotoAreas, PhotoAreasError); 13] = [
        (
            change(&|read| read.region.corners[1].x = 40.5),
            PhotoAreasError::Outside(Outside {
                x: 40.5,
                y: 0.0,
                width: 40,
                height: 30,
            }),
        ),
        (
            change(&|read| {
                read.region.left_out[1] = LeftOut::Brush {
                    way: points(&[(0.0, -1.0)]),
                    width: 3.0,
                }
            }),
            PhotoAreasError::Outside(Outside {
                x: 0.0,
                y: -1.0,
                width: 40,
                height: 30,
            }),
        ),
        (
            change(&|read| read.region.rectangle = Some([(41.0, 1.0); 4].map(point))),
            PhotoAreasError::Outside(Outside {
                x: 41.0,
                y: 1.0,
                width: 40,
                height: 30,
            }),
        ),
        (
            change(&|read| read.region.corners.truncate(2)),
            PhotoAreasError::Corners { given: 2 },
        ),
        (
            change(&|read| {
                read.region.left_out[0] = LeftOut::Outline {
                    corners: points(&[(1.0, 1.0); 2]),
                }
            }),
            PhotoAreasError::Corners { given: 2 },
        ),
        (
            change(&|read| {
                read.region.left_out[1] = LeftOut::Brush {
                    way: points(&[(1.0, 1.0); MOST_CORNERS + 1]),
                    width: 3.0,
                }
            }),
            PhotoAreasError::Corners {
                given: MOST_CORNERS + 1,
            },
        ),
        (
            change(&|read| {
                read.region.left_out[1] = LeftOut::Brush {
                    way: points(&[(1.0, 1.0)]),
                    width: 0.5,
                }
            }),
            PhotoAreasError::Brush { given: 0.5 },
        ),
        (
            change(&|read| {
                let part = read.region.left_out[0].clone();
                read.region.left_out = vec![part; MOST_LEFT_OUT + 1];
            }),
            PhotoAreasError::LeftOut {
                given: MOST_LEFT_OUT + 1,
            },
        ),
        (
            change(&|read| {
                read.cuts = vec![cut(97, 0.0, 0.0), cut(97, 0.0, 0.0)];
                read.classes = three.to_vec();
            }),
            PhotoAreasError::Cuts {
                cuts: 2,
                classes: 3,
            },
        ),
        (
            change(&|read| read.classes = three.to_vec()),
            PhotoAreasError::Cuts {
                cuts: 1,
                classes: 3,
            },
        ),
        (
            change(&|read| read.classes[0].percent = 37.0),
            PhotoAreasError::Percent,
        ),
        (
            change(&|read| read.cuts[0].below = 37.6),
            PhotoAreasError::Percent,
        ),
        (
            change(&|read| read.cuts[0].above = -0.1),
            PhotoAreasError::Percent,
        ),
    ];
    let mut card = card_of([entry(1, taken(&png(40, 30, 1)))]);
    for (read, expected) in cases {
        let refused = card.append(entry(2, look(read)));
        let Err(AppendError::Look(LookError::ReadOff { why, .. })) = refused else {
            panic!("expected {expected:?}, found {refused:?}");
        };
        assert_eq!(why, expected);
    }
    let unknown = change(&|read| read.classes[1] = class("rust", 62.5));
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
