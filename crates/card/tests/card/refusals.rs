//! Every way in which an entry, a merge or a file is refused: the words, and nothing changed.

use ringland_card::{
    AppendError, Body, Card, CardId, Entry, EntryId, Fact, Grade, Look, LookError, MergeError,
    PositionId,
    card::{LONGEST_RATER, LONGEST_TEXT},
    entry::{MOST_LAMPORT, SECTORS, Stretch},
    file::{FileError, read, write},
};
use serde_json::{Value, json};
use uom::si::{f64::Length, length::meter};

use crate::{
    bench::{
        areas, by, card, card_id, card_of, entry, entry_id, lobe, measurement, name, new_plan,
        other_plan, plan, rating, remark, state, void,
    },
    round_trip::document,
};

/// Appends an entry that must be refused in these words, and looks whether anything changed.
fn refused(card: &Card, entry: Entry, wanted: &str) -> AppendError {
    let mut tried = card.clone();
    let error = tried.append(entry).unwrap_err();
    assert_eq!(error.to_string(), wanted);
    assert_eq!(&tried, card);
    assert_eq!(write(&tried), write(card));
    error
}

fn look_refused(body: Body, wanted: &str) -> LookError {
    let before = card_of([entry(1, lobe(Grade::Light))]);
    match refused(&before, entry(2, body), wanted) {
        AppendError::Look(error) => error,
        other => panic!("{other:?}"),
    }
}

const LAND: (&str, &str) = ("cyl1/piston", "land_1");

fn land(shares: &[(&str, f64)]) -> Body {
    rating(LAND.0, LAND.1, Look::Areas(areas(shares.iter().copied())))
}

fn painted(shares: &[(&str, f64)], painting: &[(&str, u8)]) -> Body {
    let mut areas = areas(shares.iter().copied());
    areas.painted = painting
        .iter()
        .map(|(level, sectors)| Stretch {
            level: ringland_card::LevelId::new(level).unwrap(),
            sectors: *sectors,
        })
        .collect();
    rating(LAND.0, LAND.1, Look::Areas(areas))
}

const LAND_LEVELS: &str = "heavy_carbon, medium_carbon, light_carbon, black_lacquer, \
     dark_brown_lacquer, amber_lacquer, light_amber_lacquer, very_light_amber_lacquer";

#[test]
fn places_that_the_plan_does_not_have() {
    let error = look_refused(
        rating("cyl3/lobe/intake", "wear", Look::Grade(Grade::Light)),
        "position `cyl3/lobe/intake` is not in the plan",
    );
    assert!(matches!(error, LookError::UnknownPosition { .. }));
    let error = look_refused(
        rating("cyl1/lobe/intake", "scuffed", Look::Percent(1.0)),
        "characteristic `scuffed` is not looked at in `cyl1/lobe/intake`: allowed are wear, pitted, lift",
    );
    assert!(matches!(error, LookError::UnknownCharacteristic { .. }));
}

#[test]
fn looks_of_another_kind_than_the_scale() {
    let grade = || Look::Grade(Grade::Light);
    for (place, characteristic, look, wanted) in [
        (
            "cyl1/piston",
            "land_1",
            grade(),
            "`cyl1/piston/land_1` is rated by area, not by grade",
        ),
        (
            "cover",
            "sludge",
            grade(),
            "`cover/sludge` is rated by merit_area, not by grade",
        ),
        (
            "cyl1/lobe/intake",
            "pitted",
            grade(),
            "`cyl1/lobe/intake/pitted` is rated by extent, not by grade",
        ),
        (
            "cyl1/shell/upper",
            "tracks",
            grade(),
            "`cyl1/shell/upper/tracks` is rated by count, not by grade",
        ),
        (
            "cyl1/ring/top",
            "mobility",
            grade(),
            "`cyl1/ring/top/mobility` is rated by state, not by grade",
        ),
        (
            "cyl1/liner",
            "bore",
            grade(),
            "`cyl1/liner/bore` is rated by measured, not by grade",
        ),
        (
            "cyl1/lobe/intake",
            "wear",
            Look::Percent(1.0),
            "`cyl1/lobe/intake/wear` is rated by grade, not by extent",
        ),
        (
            "cyl1/lobe/intake",
            "wear",
            Look::Count(1),
            "`cyl1/lobe/intake/wear` is rated by grade, not by count",
        ),
        (
            "cyl1/lobe/intake",
            "wear",
            state("free"),
            "`cyl1/lobe/intake/wear` is rated by grade, not by state",
        ),
        (
            "cyl1/lobe/intake",
            "wear",
            Look::Areas(areas([])),
            "`cyl1/lobe/intake/wear` is rated by grade, not by area",
        ),
    ] {
        let error = look_refused(rating(place, characteristic, look), wanted);
        assert!(matches!(error, LookError::WrongKind { .. }));
    }
    let body = Body::Measurement {
        at: crate::bench::at("cyl1/lobe/intake", "wear"),
        value: 1.0,
    };
    look_refused(
        body,
        "`cyl1/lobe/intake/wear` is rated by grade, not by measured",
    );
}

#[test]
fn percentages_that_are_none() {
    for (given, text) in [
        (100.5, "100.5"),
        (-0.5, "-0.5"),
        (f64::NAN, "NaN"),
        (f64::INFINITY, "inf"),
        (f64::NEG_INFINITY, "-inf"),
    ] {
        let error = look_refused(
            rating("cyl1/lobe/intake", "pitted", Look::Percent(given)),
            &format!(
                "`cyl1/lobe/intake/pitted`, percent: {text} is not a percentage: allowed is 0 to 100"
            ),
        );
        assert!(matches!(error, LookError::Percent { .. }));
        look_refused(
            land(&[("heavy_carbon", given)]),
            &format!(
                "`cyl1/piston/land_1`, heavy_carbon: {text} is not a percentage: allowed is 0 to 100"
            ),
        );
    }
}

#[test]
fn shares_that_come_to_more_than_the_whole() {
    let error = look_refused(
        land(&[("heavy_carbon", 60.0), ("light_carbon", 40.5)]),
        "`cyl1/piston/land_1`: the shares come to 100.5 %: allowed is 100 at most",
    );
    assert!(matches!(error, LookError::AreaOver100 { .. }));
    // The whole itself is allowed, and so is a whole turn of 36 sectors with its rounding.
    let mut card = card();
    card.append(entry(
        1,
        land(&[("heavy_carbon", 60.0), ("light_carbon", 40.0)]),
    ))
    .unwrap();
    let turn: Vec<_> = ["heavy_carbon", "light_carbon", "amber_lacquer"]
        .iter()
        .cycle()
        .take(usize::from(SECTORS))
        .map(|level| ringland_card::LevelId::new(level).unwrap())
        .collect();
    let turn = Look::Areas(ringland_card::Areas::from_sectors(&turn).unwrap());
    card.append(entry(2, rating(LAND.0, LAND.1, turn))).unwrap();
}

#[test]
fn levels_and_states_that_the_scale_lacks() {
    let error = look_refused(
        land(&[("tar", 10.0)]),
        &format!(
            "`cyl1/piston/land_1`: level `tar` is not on the scale: allowed are {LAND_LEVELS}"
        ),
    );
    assert!(matches!(error, LookError::UnknownLevel { .. }));
    // What is left over is clean by itself and is not given as a share.
    look_refused(
        land(&[("clean", 10.0)]),
        &format!(
            "`cyl1/piston/land_1`: level `clean` is not on the scale: allowed are {LAND_LEVELS}"
        ),
    );
    let error = look_refused(
        rating("cyl1/ring/top", "mobility", state("gone")),
        "`cyl1/ring/top/mobility`: state `gone` is not on the scale: allowed are free, sluggish, \
         cold_stuck, hot_stuck",
    );
    assert!(matches!(error, LookError::UnknownState { .. }));
}

#[test]
fn paintings_that_do_not_agree_with_themselves() {
    for (body, wanted) in [
        (
            painted(
                &[("heavy_carbon", 50.0)],
                &[("heavy_carbon", 18), ("clean", 17)],
            ),
            "`cyl1/piston/land_1`: the painting covers 35 sectors: it must cover 36",
        ),
        (
            painted(
                &[("heavy_carbon", 50.0)],
                &[
                    &[("heavy_carbon", 18), ("clean", 18)][..],
                    &[("tar", 0); 35],
                ]
                .concat(),
            ),
            "`cyl1/piston/land_1`: the painting has 37 stretches: it may have 36 at most",
        ),
        (
            painted(&[("heavy_carbon", 50.0)], &[("tar", 18), ("clean", 18)]),
            "`cyl1/piston/land_1`: the painting has level `tar`, which is not on the scale",
        ),
        (
            painted(
                &[("heavy_carbon", 50.0)],
                &[("heavy_carbon", 9), ("clean", 27)],
            ),
            "`cyl1/piston/land_1`: the painting has 25 % at `heavy_carbon`, which is not what the shares say",
        ),
        (
            painted(&[("heavy_carbon", 50.0)], &[("clean", 36)]),
            "`cyl1/piston/land_1`: the painting has nothing at `heavy_carbon`, which the shares name",
        ),
    ] {
        let error = look_refused(body, wanted);
        assert!(matches!(error, LookError::Painting { .. }));
    }
}

#[test]
fn counts_and_sizes_that_are_none() {
    for given in [-1, 10_001, i64::MIN, i64::MAX] {
        let error = look_refused(
            rating("cyl1/shell/upper", "tracks", Look::Count(given)),
            &format!("`cyl1/shell/upper/tracks`: {given} is not a count: allowed is 0 to 10000"),
        );
        assert!(matches!(error, LookError::Count { .. }));
    }
    for (given, text) in [(f64::NAN, "NaN"), (f64::INFINITY, "inf")] {
        let error = look_refused(
            measurement(given),
            &format!("`cyl1/liner/bore`: {text} is not a size"),
        );
        assert!(matches!(error, LookError::NotFinite { .. }));
    }
}

#[test]
fn entries_that_do_not_go_with_the_card() {
    let before = card_of([
        entry(1, lobe(Grade::Light)),
        entry(2, remark("x")),
        entry(3, void(entry_id(2))),
    ]);
    let id = entry_id(1);
    refused(
        &before,
        entry(1, remark("y")),
        &format!("entry {id} is on the card already"),
    );
    refused(
        &before,
        entry(9, void(entry_id(77))),
        &format!("entry {} is not on the card", entry_id(77)),
    );
    refused(
        &before,
        entry(9, remark("y")).superseding(entry_id(77)),
        &format!("entry {} is not on the card", entry_id(77)),
    );
    refused(
        &before,
        entry(9, void(entry_id(3))),
        &format!(
            "entry {} is itself a void: make the entry anew instead",
            entry_id(3)
        ),
    );
    let mut late = entry(9, void(entry_id(2)));
    late.lamport = 1;
    refused(
        &before,
        late,
        &format!(
            "entry {} would correct {}, which does not come before it",
            entry_id(9),
            entry_id(2)
        ),
    );
}

#[test]
fn raters_texts_and_figures_out_of_range() {
    let before = card_of([entry(1, remark("x"))]);
    refused(
        &before,
        by("", entry(2, remark("y"))),
        "the rater's name has 0 characters: allowed is 1 to 200",
    );
    refused(
        &before,
        by(&"ñ".repeat(LONGEST_RATER + 1), entry(2, remark("y"))),
        "the rater's name has 201 characters: allowed is 1 to 200",
    );
    let long = "ñ".repeat(LONGEST_TEXT + 1);
    let longest = "ñ".repeat(LONGEST_TEXT);
    let long_void = Body::Void {
        entry: entry_id(1),
        reason: long.clone(),
    };
    for body in [remark(&long), name(&long), long_void] {
        refused(
            &before,
            entry(2, body),
            "the text has 10001 characters: allowed is 10000 at most",
        );
    }
    before.clone().append(entry(2, remark(&longest))).unwrap();
    for (metres, text) in [(-1.0, "-1"), (f64::NAN, "NaN"), (f64::INFINITY, "inf")] {
        let fact = Fact::DistanceM(Length::new::<meter>(metres));
        refused(
            &before,
            entry(2, Body::Fact { fact }),
            &format!("{text} is not a distance, a time or a volume: allowed is 0 or more"),
        );
    }
    let mut far = entry(2, remark("y"));
    far.lamport = MOST_LAMPORT + 1;
    refused(
        &before,
        far,
        "the Lamport counter is 9007199254740992: allowed is 9007199254740991 at most",
    );
}

#[test]
fn a_plan_that_contradicts_itself() {
    let mut wrong = plan();
    wrong.u_bias = -1.0;
    assert_eq!(
        Card::new(card_id(1), wrong.clone())
            .unwrap_err()
            .to_string(),
        "plan: u_bias is -1: allowed is 0 to 10"
    );
    let error = refused(
        &card(),
        entry(1, new_plan(wrong)),
        "the new plan: plan: u_bias is -1: allowed is 0 to 10",
    );
    assert!(matches!(error, AppendError::Plan(_)));
}

fn not_merged(ours: &Card, theirs: &Card, wanted: &str) -> MergeError {
    let error = ours.merge(theirs).unwrap_err();
    assert_eq!(error.to_string(), wanted);
    error
}

#[test]
fn files_that_are_not_of_one_card() {
    let ours = card_of([entry(1, remark("x"))]);
    let id = card_id(1);
    not_merged(
        &ours,
        &Card::new(card_id(2), plan()).unwrap(),
        &format!(
            "these are two cards, {id} and {}: only files of one card can be merged",
            card_id(2)
        ),
    );
    not_merged(
        &ours,
        &Card::new(card_id(1), other_plan()).unwrap(),
        &format!(
            "the two files of card {id} do not begin with the same plan: one of them was altered"
        ),
    );
    not_merged(
        &ours,
        &card_of([entry(1, remark("y"))]),
        &format!(
            "entry {} differs between the two files: one of them was altered",
            entry_id(1)
        ),
    );
    let mut newer = document(&ours);
    newer["newer"] = json!(1);
    not_merged(
        &ours,
        &read(newer.to_string().as_bytes()).unwrap().card,
        &format!("the two files of card {id} differ in fields that this version does not know"),
    );
}

/// A void whose target is not in its own file, and is itself a void in the other.
#[test]
fn a_merged_card_always_opens_again() {
    let ours = card_of([entry(1, remark("x")), entry(2, void(entry_id(1)))]);
    let theirs = {
        let full = card_of([entry(1, remark("x")), entry(3, void(entry_id(1)))]);
        let text = write(&full).replace(
            &format!("\"entry\":\"{}\"", entry_id(1)),
            &format!("\"entry\":\"{}\"", entry_id(2)),
        );
        read(text.as_bytes()).unwrap().card
    };
    not_merged(
        &ours,
        &theirs,
        &format!(
            "entry {}: entry {} is itself a void: make the entry anew instead",
            entry_id(3),
            entry_id(2)
        ),
    );
}

/// Tampers with a file that opens, and says how it is then refused.
fn file_refused(tamper: impl FnOnce(&mut Value)) -> String {
    let card = card_of([
        entry(1, lobe(Grade::Light)),
        entry(2, land(&[("heavy_carbon", 60.0), ("light_carbon", 40.0)])),
        entry(3, rating("cyl1/shell/upper", "tracks", Look::Count(3))),
        entry(4, remark("x")),
    ]);
    let mut document = document(&card);
    tamper(&mut document);
    read(document.to_string().as_bytes())
        .unwrap_err()
        .to_string()
}

#[test]
fn files_with_something_wrong_in_them_say_where() {
    type Tamper = fn(&mut Value);
    let cases: [(Tamper, &str); 16] = [
        (
            |d| d["entries"][0]["body"]["look"]["grade"] = json!("awful"),
            "entries[0].body.look.grade: `awful` is not one of those allowed: `none`, `none_to_trace`, \
             `trace`, `trace_to_light`, `light`, `light_to_medium`, `medium`, `medium_to_heavy`, \
             `heavy`, `heavy_to_severe`, `severe`",
        ),
        (
            |d| d["entries"][0]["body"]["at"]["position"] = json!("cyl9/lobe/intake"),
            "entry 018bcfe5-6801-7707-8707-070707070707: position `cyl9/lobe/intake` is not in the plan",
        ),
        (
            |d| d["entries"][0]["body"]["at"]["position"] = json!("up there"),
            "entries[0].body.at.position: `up there` is not a name: allowed are 1 to 80 letters a-z A-Z, \
             digits, `_`, `-` and `.`, in steps parted by `/`",
        ),
        (
            |d| d["entries"][1]["body"]["look"]["areas"]["shares"]["heavy_carbon"] = json!(61),
            "entry 018bcfe5-6802-7707-8707-070707070707: `cyl1/piston/land_1`: the shares come to \
             101 %: allowed is 100 at most",
        ),
        (
            |d| d["entries"][2]["body"]["look"]["count"] = json!(-1),
            "entry 018bcfe5-6803-7707-8707-070707070707: `cyl1/shell/upper/tracks`: -1 is not a count: \
             allowed is 0 to 10000",
        ),
        (
            |d| d["entries"][2]["body"]["look"]["count"] = json!(2.5),
            "entries[2].body.look.count: 2.5 is not a whole number",
        ),
        (
            |d| d["entries"][3]["rater"] = json!(""),
            "entries[3]: the rater's name has 0 characters: allowed is 1 to 200",
        ),
        (
            |d| d["entries"][3]["lamport"] = json!(9_007_199_254_740_992_u64),
            "entries[3]: the Lamport counter is 9007199254740992: allowed is 9007199254740991 at most",
        ),
        (
            |d| d["entries"][3]["id"] = d["entries"][2]["id"].clone(),
            "entries[3]: entry 018bcfe5-6803-7707-8707-070707070707 is on the card already",
        ),
        (
            |d| d["entries"][3]["body"] = json!("x"),
            "entries[3].body: it must be an object, not a text",
        ),
        (
            |d| d["entries"][3] = json!(7),
            "entries[3]: it must be an object, not a number",
        ),
        (
            |d| d["entries"] = json!({}),
            "entries: it must be a list, not an object",
        ),
        (
            |d| d["id"] = json!("card"),
            "id: `card` is not a UUID: allowed are 8-4-4-4-12 digits 0-9 a-f",
        ),
        (
            |d| {
                d["plan"]["sections"][1]["parts"][0]["places"][1]["looks"][0]["regime"] =
                    json!("dry");
            },
            "plan.sections[1].parts[0].places[1].looks[0].regime: `dry` is not one of those allowed: \
             `boundary`, `mixed`, `full_film`, `none`",
        ),
        (
            |d| d["plan"]["scales"]["grade"]["scores"] = json!([10, 9]),
            "plan.scales.grade.scores: it has 2 items: allowed is 6",
        ),
        (
            |d| d["plan"]["sections"][1]["weight"] = json!(-2),
            "plan: plan: weight is -2: allowed is 0 to 1000000",
        ),
    ];
    for (tamper, wanted) in cases {
        assert_eq!(file_refused(tamper), wanted);
    }
}

/// Beyond a member that is missing or of another kind: enums in each form, tables, lists as objects.
#[test]
fn what_is_wrong_has_a_kind_and_a_place() {
    let cases: [(&str, Value, &str); 15] = [
        (
            "/entries/0/body/look",
            json!({ "grade": "light", "percent": 1 }),
            "entries[0].body.look: it has 2 members: allowed is 1",
        ),
        (
            "/entries/0/body/look",
            json!({ "colour": "red" }),
            "entries[0].body.look: `colour` is not one of those allowed: `grade`, `areas`, `percent`, \
             `count`, `state`, `not_inspected`",
        ),
        (
            "/entries/0/body/look",
            json!("grade"),
            "entries[0].body.look: it must be an object, not a text",
        ),
        (
            "/entries/0/body/look/grade",
            json!(4),
            "entries[0].body.look.grade: it must be a text, not a number",
        ),
        (
            "/entries/0/body/look/grade",
            json!({ "light": null }),
            "entries[0].body.look.grade: it must be a text, not an object",
        ),
        (
            "/entries/0/body/at",
            json!(["cyl1/lobe/intake", "wear"]),
            "entries[0].body.at: it must be an object, not a list",
        ),
        (
            "/entries/0/body/kind",
            json!(true),
            "entries[0].body.kind: it must be a text, not true or false",
        ),
        (
            "/entries/3/body",
            json!({ "kind": "fact", "fact": { "field": "colour", "value": "red" } }),
            "entries[3].body.fact.field: `colour` is not one of those allowed: `name`, `fleet`, \
             `vehicle`, `model`, `serial`, `site`, `duty`, `distance_m`, `running_time_s`, `fuel_m3`, \
             `oil`, `oil_grade`, `oil_category`, `drain_distance_m`, `drain_time_s`, `sump_m3`, `reason`",
        ),
        (
            "/entries/3/body",
            json!({ "kind": "fact", "fact": { "field": "name" } }),
            "entries[3].body.fact: the member `value` is missing",
        ),
        (
            "/entries/3/body",
            json!({ "kind": "fact", "fact": { "field": "fuel_m3", "value": null } }),
            "entries[3].body.fact.value: it must be a number, not null",
        ),
        (
            "/entries/1/body/look/areas/shares",
            json!({ "heavy carbon": 1 }),
            "entries[1].body.look.areas.shares.heavy carbon: `heavy carbon` is not a name: allowed are \
             1 to 80 letters a-z A-Z, digits, `_`, `-` and `.`, in steps parted by `/`",
        ),
        (
            "/entries/1/body/look/areas",
            json!({ "shares": {}, "painted": [["clean", 36], ["heavy_carbon", 256]] }),
            "entries[1].body.look.areas.painted[1][1]: 256 is out of range: allowed is 0 to 255",
        ),
        (
            "/entries/2/time",
            json!("yesterday"),
            "entries[2].time: `yesterday` is not an instant: allowed is RFC 3339, such as \
             `2026-11-24T12:22:07Z`, in the years 0000 to 9999",
        ),
        (
            "/entries/2/lamport",
            json!(-1),
            "entries[2].lamport: -1 is out of range: allowed is 0 to 9007199254740992",
        ),
        (
            "/plan/scales/grade/method",
            json!("guess"),
            "plan.scales.grade.method: `guess` is not one of those allowed: `grade`, `area`, \
             `merit_area`, `extent`, `count`, `state`, `measured`, `gauged`",
        ),
    ];
    for (pointer, value, wanted) in cases {
        let message = file_refused(|document| {
            *document.pointer_mut(pointer).unwrap() = value;
        });
        assert_eq!(message, wanted);
    }
}

#[test]
fn members_that_are_missing_are_named() {
    for (owner, member, wanted) in [
        ("", "id", "the file: the member `id` is missing"),
        ("", "plan", "the file: the member `plan` is missing"),
        ("", "entries", "the file: the member `entries` is missing"),
        (
            "/entries/0",
            "body",
            "entries[0]: the member `body` is missing",
        ),
        (
            "/entries/0",
            "lamport",
            "entries[0]: the member `lamport` is missing",
        ),
        ("/plan", "u_bias", "plan: the member `u_bias` is missing"),
        (
            "/plan/layout",
            "mains",
            "plan.layout: the member `mains` is missing",
        ),
        (
            "/plan/caps/1",
            "cap",
            "plan.caps[1]: the member `cap` is missing",
        ),
    ] {
        let message = file_refused(|document| {
            let owner = document
                .pointer_mut(owner)
                .unwrap()
                .as_object_mut()
                .unwrap();
            owner.remove(member);
        });
        assert_eq!(message, wanted);
    }
}

#[test]
fn a_plan_that_contradicts_itself_is_refused_in_a_file_too() {
    let mut document = document(&card());
    document["plan"]["u_bias"] = json!(11);
    let error = read(document.to_string().as_bytes()).unwrap_err();
    assert!(matches!(error, FileError::Plan { .. }));
    assert_eq!(
        error.to_string(),
        "plan: plan: u_bias is 11: allowed is 0 to 10"
    );
}

#[test]
fn names_are_checked_when_they_are_made() {
    let refused = |text: &str| PositionId::new(text).unwrap_err().to_string();
    for text in ["", "a b", "/a", "a/", "a//b", "ñ", "a\n", &"x".repeat(81)] {
        assert!(
            refused(text).contains("is not a valid position id"),
            "{text}"
        );
    }
    for text in ["a", "cyl1/ring/top", "A-1_b.c", &"x".repeat(80)] {
        assert_eq!(PositionId::new(text).unwrap().as_str(), text);
    }
    let id = EntryId::parse("018bcfe5-6801-7707-8707-070707070707").unwrap();
    assert_eq!(id, entry_id(1));
    assert!(
        CardId::parse("18bcfe5")
            .unwrap_err()
            .to_string()
            .starts_with("`18bcfe5` is not a UUID")
    );
}

/// RFC 9562 section 5.7: 48 bits of milliseconds, version 7, variant 10.
#[test]
fn ids_are_uuids_of_version_7() {
    let id = CardId::v7(0x0123_4567_89ab, [0xff; 10]).to_string();
    assert_eq!(id, "01234567-89ab-7fff-bfff-ffffffffffff");
}
