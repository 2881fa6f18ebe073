//! Plans of one's own in a backup: they come back as they were, in any layout, beside the cards; what is
//! damaged or too much is told and keeps nothing else back.

use ringland_card::{
    Plan, PositionId,
    file::{
        self, BackupError, BackupList, KeptPlan, MOST_OWN_PLANS, Origin, PlanFile, PlanFileError,
        PlanTexts, read_backup, write_backup,
    },
    gauging::SizeSheet,
    plan::{Field, MOST_LEAVES, PlanError, PlanItem},
};
use serde_json::Value;

use crate::bench::{self, plan};

/// A plan in the making, which contradicts itself, with where it comes from.
fn own(name: &str) -> PlanFile {
    let mut own = plan();
    name.clone_into(&mut own.name);
    let camshaft = PlanItem::parse("section:camshaft").unwrap();
    own.set_figure(&camshaft, Field::Weight, -1.0).unwrap();
    assert_eq!(own.problems().len(), 1);
    PlanFile::new(own, Some(Origin::of(&plan())))
}

fn parent_text() -> String {
    file::write_plan(&PlanFile::new(plan(), None))
}

/// One card, one plan with its parent, one without.
fn backup() -> String {
    let (first, second) = (
        file::write_plan(&own("First")),
        file::write_plan(&own("Second")),
    );
    let parent = parent_text();
    let plans = [
        PlanTexts {
            file: &first,
            parent: Some(&parent),
        },
        PlanTexts {
            file: &second,
            parent: None,
        },
    ];
    write_backup([file::write(&bench::card()).as_str()], plans, [])
}

type Read = (bool, usize, Vec<Result<KeptPlan, PlanFileError>>);

/// Whether it is whole, how many cards came, and the plans.
fn read(bytes: &[u8]) -> Read {
    let mut backup = read_backup(bytes).unwrap();
    let cards = backup.by_ref().flatten().count();
    let left = backup.plans_left();
    let plans: Vec<_> = std::iter::from_fn(|| backup.next_plan()).collect();
    assert_eq!((plans.len(), backup.plans_left()), (left, 0));
    (backup.is_whole(), cards, plans)
}

fn kept(name: &str, parent: Option<Plan>) -> KeptPlan {
    KeptPlan {
        file: own(name),
        digest_matches: true,
        parent,
    }
}

#[test]
fn plans_come_back_as_they_were_in_any_layout() {
    let text = backup();
    let value: Value = serde_json::from_str(&text).unwrap();
    assert_eq!(value["plans"].as_array().unwrap().len(), 2);
    let wanted = vec![Ok(kept("First", Some(plan()))), Ok(kept("Second", None))];
    for laid_out in [
        text.clone(),
        text.replace('\n', "\r\n"),
        value.to_string(),
        serde_json::to_string_pretty(&value).unwrap(),
    ] {
        assert_eq!(read(laid_out.as_bytes()), (true, 1, wanted.clone()));
    }
}

#[test]
fn size_sheets_come_back_as_they_were_in_any_layout() {
    let sheet = |name: &str| SizeSheet {
        name: name.to_owned(),
        source: "invented".to_owned(),
        break_in_m: Some(1e7),
        sizes: Vec::new(),
    };
    let texts = ["First", "Second"].map(|name| file::write_sizes(&sheet(name)));
    let plan = file::write_plan(&own("A plan"));
    let plan = PlanTexts {
        file: &plan,
        parent: None,
    };
    for plans in [vec![], vec![plan]] {
        let wanted = plans.len();
        let text = write_backup([], plans, texts.iter().map(String::as_str));
        let value: Value = serde_json::from_str(&text).unwrap();
        for laid_out in [text.clone(), value.to_string()] {
            let mut backup = read_backup(laid_out.as_bytes()).unwrap();
            assert!(backup.is_whole());
            assert_eq!((backup.left(), backup.plans_left()), (0, wanted));
            assert_eq!(backup.sheets_left(), 2);
            for name in ["First", "Second"] {
                let opened = backup.next_sheet().unwrap().unwrap();
                assert_eq!((opened.sheet, opened.digest_matches), (sheet(name), true));
            }
            assert!(backup.next_sheet().is_none());
        }
        // Cut short, the first is still to be had.
        let short = text.find("Second").unwrap();
        let mut backup = read_backup(&text.as_bytes()[..short]).unwrap();
        assert!(!backup.is_whole());
        assert!(backup.next_sheet().unwrap().is_ok());
        assert!(backup.next_sheet().unwrap().is_err());
    }
}

/// The layout that backups had before plans were in them, written out here.
#[test]
fn a_backup_of_before_opens_and_one_without_plans_is_still_the_same() {
    let card = file::write(&bench::card());
    let before =
        format!("{{\"format\":\"ringland-backup\",\"version\":1,\"cards\":[\n{card}\n]}}\n");
    assert_eq!(read(before.as_bytes()), (true, 1, vec![]));
    assert_eq!(write_backup([card.as_str()], [], []), before);
}

#[test]
fn plans_without_any_card_come_back() {
    let first = file::write_plan(&own("First"));
    let texts = PlanTexts {
        file: &first,
        parent: None,
    };
    let text = write_backup([], [texts], []);
    assert!(serde_json::from_str::<Value>(&text).is_ok());
    assert_eq!(
        read(text.as_bytes()),
        (true, 0, vec![Ok(kept("First", None))])
    );
}

#[test]
fn a_backup_cut_short_among_the_plans_gives_what_is_whole() {
    let text = backup();
    let (whole, cards, plans) = read(&text.as_bytes()[..text.len() - 100]);
    assert!(!whole);
    assert_eq!((cards, plans.len()), (1, 2));
    assert_eq!(plans[0], Ok(kept("First", Some(plan()))));
    assert!(matches!(plans[1], Err(PlanFileError::Json(_))));
}

#[test]
fn a_damaged_plan_is_told_and_an_altered_one_is_known() {
    let text = backup();
    let line = text.lines().nth(3).unwrap();
    let cut = text.replace(line, &line[..line.len() / 2]);
    let (whole, cards, plans) = read(cut.as_bytes());
    assert!(whole);
    assert_eq!(cards, 1);
    assert!(matches!(plans[0], Err(PlanFileError::Json(_))));
    assert_eq!(plans[1], Ok(kept("Second", None)));
    let altered = text.replace("Second", "Sicond");
    let (.., plans) = read(altered.as_bytes());
    let matches: Vec<bool> = plans
        .iter()
        .map(|plan| plan.as_ref().unwrap().digest_matches)
        .collect();
    assert_eq!(matches, [true, false]);
}

#[test]
fn a_parent_that_cannot_be_read_keeps_no_plan_back() {
    let first = file::write_plan(&own("First"));
    for parent in ["[1]", "null", "{\"format\":\"ringland-plan\"}"] {
        let texts = PlanTexts {
            file: &first,
            parent: Some(parent),
        };
        let text = write_backup([], [texts], []);
        assert_eq!(
            read(text.as_bytes()).2,
            [Ok(kept("First", None))],
            "{parent}"
        );
    }
}

/// A plan that asks for more than one may.
fn too_large() -> Plan {
    let mut large = plan();
    let place = &mut large.sections[0].parts[0].places[0];
    let position = place.positions[0].clone();
    let most = MOST_LEAVES + 1;
    place.positions = (0..most)
        .map(|n| {
            let mut position = position.clone();
            position.id = PositionId::new(&format!("p{n}")).unwrap();
            position
        })
        .collect();
    large
}

#[test]
fn what_is_hostile_among_the_plans_is_refused_by_itself() {
    let large = file::write_plan(&PlanFile::new(too_large(), None));
    let wrong = |item: &str| {
        let text = backup();
        let line = text.lines().nth(3).unwrap();
        let text = text.replace(line, &[item, ","].concat());
        let (whole, cards, mut plans) = read(text.as_bytes());
        assert!(whole);
        assert_eq!((cards, plans.len()), (1, 2));
        assert_eq!(plans[1], Ok(kept("Second", None)));
        plans.remove(0).unwrap_err()
    };
    let error = wrong(&format!("{{\"file\":{large}}}"));
    assert!(
        matches!(
            error,
            PlanFileError::Contradiction(PlanError::TooLarge { .. })
        ),
        "{error}"
    );
    for item in [
        "7",
        "[]",
        "{}",
        "{\"file\":[]}",
        "{\"file\":{\"format\":\"ringland-card\"}}",
    ] {
        assert_eq!(wrong(item), PlanFileError::NotAPlan, "{item}");
    }
    let deep = ["{\"file\":", &"[".repeat(100), &"]".repeat(100), "}"].concat();
    assert!(matches!(wrong(&deep), PlanFileError::Json(_)));
    let newer = "{\"file\":{\"format\":\"ringland-plan\",\"version\":99}}";
    assert_eq!(wrong(newer), PlanFileError::Newer { version: 99 });
}

#[test]
fn more_plans_than_a_backup_may_hold_and_plans_that_are_no_list_are_refused() {
    let item = "{},\n".repeat(MOST_OWN_PLANS + 1);
    let many = format!(
        "{{\"format\":\"ringland-backup\",\"version\":1,\"cards\":[\n],\"plans\":[\n{item}]}}\n"
    );
    let given = MOST_OWN_PLANS + 1;
    assert_eq!(
        read_backup(many.as_bytes()).unwrap_err(),
        BackupError::TooMany {
            list: BackupList::Plans,
            given
        }
    );
    let none = r#"{"format":"ringland-backup","version":1,"cards":[],"plans":{}}"#;
    assert_eq!(
        read_backup(none.as_bytes()).unwrap_err().to_string(),
        "plans: it must be a list, not an object"
    );
}

#[test]
fn every_cut_and_every_broken_byte_is_an_answer() {
    let text = backup();
    let bytes = text.as_bytes();
    let from = text.find("\"plans\"").unwrap() - 200;
    for end in (from..bytes.len()).step_by(1_999) {
        if read_backup(&bytes[..end]).is_ok() {
            assert!(read(&bytes[..end]).2.len() <= 2);
        }
    }
    for place in (from..bytes.len()).step_by(2_003) {
        let mut broken = bytes.to_vec();
        broken[place] ^= 0x15;
        if read_backup(&broken).is_ok() {
            assert!(read(&broken).2.len() <= 3);
        }
    }
}
