//! A plan as a file: the same bytes everywhere, nothing lost, and nothing believed.

use ringland_card::{
    file::{
        FileError, Origin, PlanFile, PlanFileError, canonical, plan_digest, read, read_draft,
        read_plan, write, write_plan,
    },
    plan::PlanItem,
};
use serde_json::Value;

use crate::bench::plan;

fn own() -> PlanFile {
    let mut own = plan();
    "Ours".clone_into(&mut own.name);
    own.sections[0].weight = 3.5;
    PlanFile::new(own, Some(Origin::of(&plan())))
}

#[test]
fn a_plan_comes_back_as_it_was_written() {
    for file in [own(), PlanFile::new(plan(), None)] {
        let text = write_plan(&file);
        let opened = read_plan(text.as_bytes()).unwrap();
        assert!(opened.digest_matches);
        assert_eq!(opened.file, file);
        assert_eq!(write_plan(&opened.file), text);
        let value: Value = serde_json::from_str(&text).unwrap();
        assert_eq!(canonical(&value), text);
    }
    let origin = own().derived_from.unwrap();
    assert_eq!(origin.digest, plan_digest(&plan()));
    assert_eq!((origin.name, origin.version), (plan().name, plan().version));
}

#[test]
fn an_altered_file_is_told() {
    let text = write_plan(&own()).replace("\"Ours\"", "\"Theirs\"");
    let opened = read_plan(text.as_bytes()).unwrap();
    assert!(!opened.digest_matches);
    assert_eq!(opened.file.plan.name, "Theirs");
}

#[test]
fn what_a_newer_version_wrote_is_kept() {
    let mut value: Value = serde_json::from_str(&write_plan(&own())).unwrap();
    value["note"] = "of later".into();
    value["plan"]["colour"] = "grey".into();
    value["derived_from"]["when"] = "yesterday".into();
    let opened = read_plan(value.to_string().as_bytes()).unwrap();
    let back: Value = serde_json::from_str(&write_plan(&opened.file)).unwrap();
    value["digest"] = back["digest"].clone();
    assert_eq!(back, value);
}

#[test]
fn a_plan_in_the_making_is_read_as_a_draft_only() {
    let mut file = own();
    file.plan
        .switch_off(&PlanItem::parse("section:camshaft").unwrap())
        .unwrap();
    let text = write_plan(&file);
    assert!(matches!(
        read_plan(text.as_bytes()),
        Err(PlanFileError::Contradiction(_))
    ));
    assert_eq!(read_draft(text.as_bytes()).unwrap().file, file);
}

#[test]
fn what_is_no_plan_is_refused_with_the_reason() {
    let refuse = |text: &str| read_plan(text.as_bytes()).unwrap_err();
    let card = ringland_card::Card::new(ringland_card::CardId::v7(1, [1; 10]), plan()).unwrap();
    assert_eq!(refuse(&write(&card)), PlanFileError::NotAPlan);
    assert_eq!(refuse("[]"), PlanFileError::NotAPlan);
    assert!(matches!(refuse("{"), PlanFileError::Json(_)));
    let with = |from: &str, to: &str| write_plan(&own()).replace(from, to);
    let newer = with("\"version\":2}", "\"version\":3}");
    assert_eq!(
        refuse(&newer).to_string(),
        "the file is of format version 3: this program reads up to version 2"
    );
    assert_eq!(
        refuse(&with("\"version\":2}", "\"version\":0}")),
        PlanFileError::NoVersion
    );
    let member = refuse(&with("\"weight\":3.5", "\"weight\":\"much\""));
    assert!(matches!(
        member,
        PlanFileError::Member(FileError::Field { .. })
    ));
    assert!(
        member.to_string().starts_with("plan.sections[0]"),
        "{member}"
    );
    // And a plan is no card.
    assert_eq!(
        read(write_plan(&own()).as_bytes()),
        Err(FileError::NotACard)
    );
}

#[test]
fn every_cut_and_every_broken_byte_is_an_answer() {
    let text = write_plan(&own());
    let bytes = text.as_bytes();
    for end in (0..bytes.len()).step_by(211) {
        assert!(read_plan(&bytes[..end]).is_err());
    }
    for place in (0..bytes.len()).step_by(223) {
        let mut broken = bytes.to_vec();
        broken[place] ^= 0x15;
        if let Ok(opened) = read_plan(&broken) {
            assert!(!opened.digest_matches);
        }
    }
}
