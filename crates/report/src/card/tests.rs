//! The Card of small cards: whole, hostile, empty.

use ringland_assess::{Tree, assess};
use ringland_card::{
    At, Body, Card, CardId, Depth, DeviceId, Entry, EntryId, Fact, Grade, Layout, Look,
    NotInspected, Timestamp, builtin, plan::LeafId, scale::Method,
};

use super::*;
use crate::html::escape;

fn write(card: &mut Card, rater: &str, body: Body) {
    let lamport = card.next_lamport();
    let mut random = [0; 10];
    random[..8].copy_from_slice(&lamport.to_be_bytes());
    let id = EntryId::v7(lamport, random);
    let device = DeviceId::v7(0, [9; 10]);
    let entry = Entry::new(id, device, lamport, Timestamp::UNIX_EPOCH, rater, body);
    card.append(entry).unwrap();
}

fn at(card: &Card, leaf: usize) -> At {
    card.index().leaves()[leaf].at(card.plan())
}

/// A short six with a look at everything that takes a grade, and one thing not inspected.
fn rated() -> Card {
    let plan = builtin(&Layout::inline_six(), Depth::Short).unwrap();
    let mut card = Card::new(CardId::v7(1, [1; 10]), plan).unwrap();
    write(
        &mut card,
        "one",
        Body::Fact {
            fact: Fact::Name("<b>Six</b> & \"co\"".to_owned()),
        },
    );
    for leaf in 0..card.index().leaves().len() {
        let here = card.index().leaves()[leaf];
        let scale = &here.characteristic(card.plan()).scale;
        let method = card.plan().scale(scale).map(ringland_card::Scale::method);
        let look = match method {
            Some(Method::Grade) => Look::Grade(Grade::from_half_steps(leaf % 11).unwrap()),
            Some(Method::Extent) => Look::Percent(3.0),
            _ => Look::NotInspected(NotInspected::NoTime),
        };
        let at = at(&card, leaf);
        write(&mut card, "<one>", Body::Rating { at, look });
    }
    card
}

fn with_sheet<T>(card: &Card, read: impl FnOnce(&Sheet<'_>) -> T) -> T {
    let tree = Tree::of(card.plan());
    let result = assess(&card.standing(), &tree);
    let mut sheet = Sheet::new(card, &tree, &result, &Words::ENGLISH);
    sheet.bench = Some("#/bench/x".to_owned());
    read(&sheet)
}

fn whole(sheet: &Sheet<'_>) -> Vec<String> {
    vec![
        sheet.who(),
        sheet.score(),
        sheet.worst(),
        sheet.sections(true),
        sheet.map(),
        sheet.not_looked_at(),
        sheet.left_out(),
        sheet.trade(),
        sheet.along(),
        sheet.grades(),
        sheet.people(),
        sheet.remarks(true),
        sheet.corrections(true),
        sheet.outside(),
        sheet.method("sha256:0", true),
        sheet.cautions(),
        sheet.reuse(),
    ]
}

/// Elements close in the order in which they were opened.
#[track_caller]
fn well_formed(html: &str) {
    let mut open: Vec<&str> = Vec::new();
    for tag in html.split('<').skip(1) {
        let (tag, _) = tag.split_once('>').expect("a tag ends");
        if let Some(name) = tag.strip_prefix('/') {
            assert_eq!(
                open.pop(),
                Some(name),
                "in {}",
                &html[..html.len().min(400)]
            );
        } else if !tag.ends_with('/') {
            open.push(tag.split(' ').next().unwrap_or(tag));
        }
    }
    assert!(open.is_empty(), "{open:?}");
}

#[test]
fn every_piece_is_well_formed() {
    let card = rated();
    with_sheet(&card, |sheet| {
        for piece in whole(sheet) {
            well_formed(&piece);
        }
        for number in 0..sheet.tree.nodes().len() {
            well_formed(&sheet.inside(number, false));
        }
    });
}

#[test]
fn a_hostile_name_stays_a_name() {
    let card = rated();
    with_sheet(&card, |sheet| {
        let page = whole(sheet).concat();
        assert!(page.contains("&lt;b&gt;Six&lt;/b&gt; &amp; &quot;co&quot;"));
        assert!(page.contains("&lt;one&gt;"));
        assert!(!page.contains("<one>") && !page.contains("<b>Six"));
        // No style attribute: the page's content security policy would refuse it.
        assert!(!page.contains(" style="));
    });
}

#[test]
fn an_empty_card_says_what_to_do() {
    let plan = builtin(&Layout::vee_eight(), Depth::Full).unwrap();
    let card = Card::new(CardId::v7(1, [1; 10]), plan).unwrap();
    with_sheet(&card, |sheet| {
        for piece in whole(sheet) {
            well_formed(&piece);
        }
        assert!(sheet.score().contains(Words::ENGLISH.card.nothing_yet_hint));
        assert!(
            [sheet.trade(), sheet.along(), sheet.left_out()]
                .concat()
                .is_empty()
                && sheet.worst().is_empty()
                && sheet.remarks(false).is_empty()
                && sheet.grades().is_empty()
        );
    });
}

/// A card may have any number of remarks; a page has so many at once.
#[test]
fn many_remarks_are_shown_a_few_at_a_time() {
    let mut card = rated();
    for n in 0..450 {
        let text = format!("remark {n}.");
        write(&mut card, "one", Body::Remark { about: None, text });
    }
    with_sheet(&card, |sheet| {
        let (first, next) = (sheet.remarks(false), sheet.fill(Fill::Remarks(200), false));
        let last = sheet.fill(Fill::Remarks(400), false);
        let shown = [&first, &next, &last].map(|html| html.matches("remark-said").count());
        assert_eq!(shown, [200, 200, 50]);
        assert!(first.contains("data-fill=\"remarks-200\""));
        assert!(next.contains("remark 200.") && next.contains("data-fill=\"remarks-400\""));
        assert!(!last.contains("data-fill"));
        let rest = sheet.fill(Fill::Remarks(200), true);
        assert_eq!(rest.matches("remark-said").count(), 250);
        assert_eq!(sheet.fill(Fill::Remarks(9999), false), "");
    });
}

/// What leads to a node leads to one that is there, and each `details` says what belongs in it.
#[test]
fn every_way_leads_somewhere() {
    let card = rated();
    with_sheet(&card, |sheet| {
        let page = whole(sheet).concat();
        for go in page.split("data-go=\"").skip(1) {
            let (number, _) = go.split_once('"').unwrap();
            let anchor = format!("id=\"{}\"", anchor(number.parse().unwrap()));
            assert_eq!(page.matches(&anchor).count(), 1, "{anchor}");
        }
        for fill in page.split("data-fill=\"").skip(1) {
            let (fill, _) = fill.split_once('"').unwrap();
            assert!(Fill::parse(fill).is_some_and(|known| known.to_string() == fill));
        }
        let leaf = sheet.tree.node_of(LeafId(5));
        assert!(sheet.inside(leaf, false).contains("href=\"#/bench/x/5\""));
    });
}

#[test]
fn the_weights_are_said_to_be_whose_they_are() {
    let mut card = rated();
    let method = |card: &Card| with_sheet(card, |sheet| sheet.method("", false));
    let card_words = &Words::ENGLISH.card;
    let default = escape(card_words.default_weights).to_string();
    assert!(method(&card).contains(&default));
    let mut plan = card.plan().clone();
    plan.sections[0].weight = 9.0;
    let plan = Box::new(plan);
    write(&mut card, "one", Body::Plan { plan });
    let said = method(&card);
    assert!(!said.contains(&default));
    assert!(said.contains(&*escape(card_words.own_weights)));
}
