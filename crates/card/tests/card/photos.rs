//! Photos and what is marked on them, and the file that carries a card with its photos.

use ringland_card::{
    AppendError, Body, Brought, Coming, Photo, PhotoDigest, Taken,
    file::{Bundle, BundleError, BundleWriter, PackedError, check_photo, is_bundle, read, write},
    gauging::Unit,
    photo::{LONGEST_LABEL, MOST_CORNERS, Mark, MarkError, Outside, Picture, PictureError, Point},
};

use crate::bench::{about, card, card_of, entry, entry_id, remark, typed, void};

/// A picture of that size: a PNG's signature and header, which is all that is looked at, and a tail of its own.
pub(crate) fn png(width: u32, height: u32, tail: u8) -> Vec<u8> {
    let mut bytes = b"\x89PNG\r\n\x1a\n\0\0\0\x0dIHDR".to_vec();
    bytes.extend(width.to_be_bytes());
    bytes.extend(height.to_be_bytes());
    bytes.extend([8, 2, 0, 0, 0, tail]);
    bytes
}

fn photo(bytes: &[u8]) -> Photo {
    Photo {
        digest: PhotoDigest::of(bytes),
        picture: Picture::of(bytes).unwrap(),
        taken: Taken::AsFound,
    }
}

pub(crate) fn taken(bytes: &[u8]) -> Body {
    Body::Photo {
        about: Some(about("cyl1/lobe/exhaust", None)),
        photo: Box::new(photo(bytes)),
    }
}

fn mark(on: u64, mark: Mark) -> Body {
    Body::Mark {
        on: entry_id(on),
        mark,
    }
}

fn point(x: f64, y: f64) -> Point {
    Point { x, y }
}

fn length(from: Point, to: Point) -> Mark {
    Mark::Length { from, to }
}

pub(crate) fn note(text: &str) -> Mark {
    Mark::Note {
        at: point(1.0, 1.0),
        text: text.to_owned(),
    }
}

fn scale(figure: &str, unit: Unit) -> Mark {
    Mark::Scale {
        from: point(0.0, 0.0),
        to: point(24.0, 18.0),
        length: typed(figure),
        unit,
    }
}

#[test]
fn photos_and_marks_come_back_from_the_file_as_they_were() {
    let corners = vec![point(0.0, 0.0), point(10.5, 0.25), point(3.0, 8.0)];
    let arrow = Mark::Arrow {
        from: point(40.0, 30.0),
        to: point(0.0, 30.0),
        text: "Pit".to_owned(),
    };
    let outline = Mark::Outline {
        corners,
        text: String::new(),
    };
    let marks = [
        arrow,
        outline,
        note("Ñ <script>"),
        scale("10.00", Unit::Mm),
        length(point(0.0, 0.0), point(40.0, 30.0)),
    ];
    let mut entries = vec![entry(1, taken(&png(40, 30, 1)))];
    entries.extend((2..).zip(marks).map(|(n, shape)| entry(n, mark(1, shape))));
    let card = card_of(entries);
    let text = write(&card);
    let opened = read(text.as_bytes()).unwrap();
    assert!(opened.digest_matches);
    assert_eq!(opened.card, card);
    let standing = opened.card.standing();
    assert_eq!(standing.photos.len(), 1);
    assert_eq!(standing.marks[&entry_id(1)].len(), 5);
    let distance = point(0.0, 0.0).distance(point(24.0, 18.0));
    assert!((distance - 30.0).abs() < 1e-12);
}

#[test]
fn what_is_taken_out_is_shown_no_more() {
    let card = card_of([
        entry(1, taken(&png(40, 30, 1))),
        entry(2, mark(1, note("A"))),
        entry(3, mark(1, note("B"))),
        entry(4, void(entry_id(2))),
        entry(5, taken(&png(40, 30, 2))),
        entry(6, void(entry_id(5))),
        entry(7, mark(1, note("C"))).superseding(entry_id(3)),
    ]);
    let standing = card.standing();
    let ids: Vec<_> = standing.photos.iter().map(|entry| entry.id).collect();
    assert_eq!(ids, [entry_id(1)]);
    let marks: Vec<_> = standing.marks[&entry_id(1)]
        .iter()
        .map(|entry| entry.id)
        .collect();
    assert_eq!(marks, [entry_id(7)]);
}

#[test]
fn a_mark_that_cannot_be_one_is_refused() {
    let mut card = card_of([entry(1, taken(&png(40, 30, 1))), entry(2, remark("x"))]);
    let origin = point(0.0, 0.0);
    let outside = |x, y| {
        MarkError::Outside(Outside {
            x,
            y,
            width: 40,
            height: 30,
        })
    };
    let cases = [
        (length(origin, point(40.5, 1.0)), outside(40.5, 1.0)),
        (length(point(1.0, -0.5), origin), outside(1.0, -0.5)),
        (length(origin, origin), MarkError::NoExtent),
        (note(""), MarkError::Text { given: 0 }),
        (
            note(&"x".repeat(LONGEST_LABEL + 1)),
            MarkError::Text {
                given: LONGEST_LABEL + 1,
            },
        ),
        (
            Mark::Outline {
                corners: vec![origin; 2],
                text: String::new(),
            },
            MarkError::Corners { given: 2 },
        ),
        (
            Mark::Outline {
                corners: vec![origin; MOST_CORNERS + 1],
                text: String::new(),
            },
            MarkError::Corners {
                given: MOST_CORNERS + 1,
            },
        ),
        (
            scale("0.0", Unit::Mm),
            MarkError::Known {
                given: "0.0 mm".to_owned(),
            },
        ),
        (
            scale("5", Unit::G),
            MarkError::Known {
                given: "5 g".to_owned(),
            },
        ),
    ];
    for (shape, why) in cases {
        assert_eq!(
            card.append(entry(3, mark(1, shape))),
            Err(AppendError::Mark(why))
        );
    }
    let nan = length(origin, point(f64::NAN, 1.0));
    assert!(card.append(entry(3, mark(1, nan))).is_err());
    let target = entry_id(2);
    assert_eq!(
        card.append(entry(3, mark(2, note("A")))),
        Err(AppendError::NotAPhoto { target })
    );
    let target = entry_id(9);
    assert_eq!(
        card.append(entry(3, mark(9, note("A")))),
        Err(AppendError::UnknownTarget { target })
    );
    assert_eq!(card.len(), 2);
}

#[test]
fn a_photo_without_extent_is_refused() {
    let mut body = taken(&png(40, 30, 1));
    let Body::Photo { photo, .. } = &mut body else {
        unreachable!()
    };
    photo.picture.height = 0;
    let why = PictureError::Side {
        width: 40,
        height: 0,
    };
    assert_eq!(
        card().append(entry(1, body)),
        Err(AppendError::Picture(why))
    );
}

#[test]
fn photos_that_come_in_are_counted() {
    let there = card_of([
        entry(1, taken(&png(40, 30, 1))),
        entry(2, mark(1, note("A"))),
    ]);
    let coming = Coming::of(&card(), &there).unwrap();
    assert_eq!(coming.entries[&Brought::Photo], 1);
    assert_eq!(coming.entries[&Brought::Mark], 1);
}

/// A bundle of a card with two photos, both packed.
fn bundle() -> (Vec<u8>, Vec<Vec<u8>>) {
    let pictures = vec![png(40, 30, 1), png(20, 10, 2)];
    let card = card_of([entry(1, taken(&pictures[0])), entry(2, taken(&pictures[1]))]);
    let mut writer = BundleWriter::new("six", &write(&card)).unwrap();
    let mut bytes = writer.take();
    for picture in &pictures {
        writer.photo(&photo(picture), picture).unwrap();
        bytes.extend(writer.take());
    }
    bytes.extend(writer.finish().unwrap());
    (bytes, pictures)
}

#[test]
fn a_bundle_gives_back_the_card_and_its_photos() {
    let (bytes, pictures) = bundle();
    assert!(is_bundle(&bytes));
    let bundle = Bundle::open(&bytes).unwrap();
    let opened = read(&bundle.card().unwrap()).unwrap();
    assert_eq!((opened.card.len(), opened.digest_matches), (2, true));
    assert_eq!((bundle.photos().len(), bundle.left_out()), (2, 0));
    for picture in &pictures {
        let given = bundle.photo(&photo(picture)).unwrap().unwrap();
        assert_eq!(*given, **picture);
    }
    assert!(bundle.photo(&photo(&png(1, 1, 1))).is_none());
}

#[test]
fn a_bundle_cut_short_is_refused_and_one_bit_is_noticed() {
    let (whole, pictures) = bundle();
    for end in 0..whole.len() {
        assert!(Bundle::open(&whole[..end]).is_err(), "{end}");
    }
    let text = Bundle::open(&whole).unwrap().card().unwrap().into_owned();
    for at in 0..whole.len() {
        let mut flipped = whole.clone();
        flipped[at] ^= 1;
        // It may be refused, or leave something out; what it gives is what was put in.
        let Ok(bundle) = Bundle::open(&flipped) else {
            continue;
        };
        if let Ok(card) = bundle.card() {
            assert_eq!(*card, *text, "{at}");
        }
        for picture in &pictures {
            if let Some(Ok(given)) = bundle.photo(&photo(picture)) {
                assert_eq!(*given, **picture, "{at}");
            }
        }
    }
}

/// An archive of files by name, as they are.
fn archive(files: &[(&str, &[u8])]) -> Vec<u8> {
    use std::io::Write as _;
    let mut archive = rawzip::ZipArchiveWriter::new(Vec::new());
    for (name, bytes) in files {
        let path = rawzip::path::EntryPath::verbatim(name.as_bytes());
        let (mut entry, config) = archive.new_file(path).start().unwrap();
        let mut writer = config.wrap(&mut entry);
        writer.write_all(bytes).unwrap();
        let (_, descriptor) = writer.finish().unwrap();
        entry.finish(descriptor).unwrap();
    }
    archive.finish().unwrap()
}

#[test]
fn names_are_compared_and_never_followed() {
    let file = write(&card());
    let picture = png(40, 30, 1);
    let digest = PhotoDigest::of(&picture);
    let bytes = archive(&[
        ("six.card.json", file.as_bytes()),
        ("../other.card.json", b"{}"),
        ("deep\\other.card.json", b"{}"),
        (&format!("../photos/{digest}.png"), &picture),
        (&format!("photos/{digest}.svg"), &picture),
        ("photos/../../etc/passwd", b"x"),
    ]);
    let bundle = Bundle::open(&bytes).unwrap();
    assert_eq!((bundle.photos().len(), bundle.left_out()), (0, 5));
    assert_eq!(*bundle.card().unwrap(), *file.as_bytes());
}

#[test]
fn a_bundle_has_just_one_card() {
    let given = |files| Bundle::open(&archive(files)).map(|_| ());
    let not = |given| Err(BundleError::NotOneCard { given });
    assert_eq!(given(&[("photos/x.jpg", b"x")]), not(0));
    assert_eq!(
        given(&[("a.card.json", b"{}"), ("b.card.json", b"{}")]),
        not(2)
    );
    assert_eq!(
        Bundle::open(b"PK\x03\x04 not").map(|_| ()),
        Err(BundleError::Damaged)
    );
    let many: Vec<String> = (0..=ringland_card::file::MOST_MEMBERS)
        .map(|n| n.to_string())
        .collect();
    let many: Vec<(&str, &[u8])> = many.iter().map(|name| (name.as_str(), &b""[..])).collect();
    assert_eq!(given(&many), Err(BundleError::TooMany));
}

#[test]
fn a_photo_that_is_not_what_its_name_or_the_card_says_is_left_out() {
    let (real, other) = (png(40, 30, 1), png(41, 30, 1));
    let name = format!("photos/{}.png", PhotoDigest::of(&real));
    let bytes = archive(&[("six.card.json", b"{}"), (&name, &other)]);
    let bundle = Bundle::open(&bytes).unwrap();
    assert_eq!(bundle.photo(&photo(&real)), Some(Err(PackedError::Digest)));
    let mut described = photo(&real);
    described.picture.width = 4000;
    assert_eq!(check_photo(&described, &real), Err(PackedError::Differs));
    let svg = b"<svg xmlns='http://www.w3.org/2000/svg' onload='alert(1)'/>";
    described.digest = PhotoDigest::of(svg);
    assert_eq!(
        check_photo(&described, svg),
        Err(PackedError::Picture(PictureError::Kind))
    );
}
