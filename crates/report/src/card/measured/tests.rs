use ringland_assess::{
    Tree, assess,
    gauging::{finding::findings, outlook::Outlook},
};
use ringland_card::{
    Body, Card,
    gauging::{SizeSheet, Unit},
};

use super::super::{Fill, Sheet};
use crate::{
    gauging::sizes_form,
    measured_engine::{measured, row, write},
    words::Words,
};

/// Makes a piece of the Card in a language.
fn piece(card: &Card, words: &'static Words, make: impl FnOnce(&Sheet<'_>) -> String) -> String {
    let tree = Tree::of(card.plan());
    let result = assess(&card.standing(), &tree);
    let mut sheet = Sheet::new(card, &tree, &result, words);
    sheet.gauging = Some("#/gauging/1".to_owned());
    make(&sheet)
}

/// What is read of markup, without tags.
fn text(markup: &str) -> String {
    let mut text = String::new();
    for piece in markup.split('<') {
        let said = piece.split_once('>').map_or(piece, |(_, said)| said);
        text.push_str(said);
        text.push(' ');
    }
    let words: Vec<&str> = text.split_whitespace().collect();
    words.join(" ").replace('\u{a0}', " ")
}

#[test]
fn the_section_says_what_was_found_and_where() {
    let card = measured();
    let said = text(&piece(&card, &Words::ENGLISH, |sheet| {
        sheet.measured(false)
    }));
    for part in [
        "Measured",
        "Held against “&lt;b&gt;Sheet&lt;/b&gt;”. Source: Manual, &lt;p&gt; 3",
        "Worst share of allowance",
        // 130.262 on a limit of 130.200; the third bore lies on its limit.
        "Beyond the limit",
        "Cylinder 2, liner · bore",
        "limit, most 130.20",
        "Cannot say with this gauge",
        "Cylinder 3, liner · bore",
        // A pin that looks severe and has hardly worn.
        "Worth a second look",
        "severe",
        "Too coarse for the allowance",
    ] {
        assert!(said.contains(part), "{part} is not in: {said}");
    }
}

/// A sheet that has a bore in grams: said with the row wherever the sheet is shown, and nothing is held
/// against it.
#[test]
fn a_size_in_a_unit_of_another_quantity_is_told_with_its_row() {
    const SAID: &str = "the sheet has it in g; it is measured in mm, µm, in, 0.001 in, so this size cannot be used";
    let mut card = measured();
    let mut sheet = card.standing().size_sheet().cloned().unwrap();
    let said = |card: &Card, sheet: &SizeSheet| {
        let form = sizes_form(card.plan(), sheet, Unit::In, &Words::ENGLISH);
        let section = text(&piece(card, &Words::ENGLISH, |sheet| sheet.measured(false)));
        let limits = piece(card, &Words::ENGLISH, |sheet| {
            let gauger = sheet.gauger();
            let bore = row(card, "liner", "bore")[0];
            text(&gauger.limits(gauger.kind_of(bore).unwrap()))
        });
        (form, section, limits)
    };
    // What is weighed has its mass in grams, whatever the sheet says.
    let in_grams = |form: &str| form.matches("<option value=\"g\" selected").count();
    let (form, section, limits) = said(&card, &sheet);
    let weighed = in_grams(&form);
    assert!(!section.contains(SAID) && !limits.contains(SAID));
    sheet.sizes[0].unit = Unit::G;
    let body = Body::Sizes {
        sheet: Box::new(sheet.clone()),
    };
    write(&mut card, "one", body);
    let (form, section, limits) = said(&card, &sheet);
    assert_eq!(in_grams(&form), weighed + 1, "{form}");
    for said in [section, limits] {
        assert!(
            said.contains(&["Liner, bore diameter: ", SAID].concat()),
            "{said}"
        );
        assert!(!said.contains("130.20"), "{said}");
    }
}

#[test]
fn the_section_is_in_spanish_too() {
    let card = measured();
    let said = text(&piece(&card, &Words::SPANISH, |sheet| {
        sheet.measured(false)
    }));
    for part in ["Medido", "130,20 mm", "Fuente: Manual"] {
        assert!(said.contains(part), "{part} is not in: {said}");
    }
    assert!(!said.contains("130.2"), "{said}");
}

#[test]
fn a_kind_opens_to_its_table_and_a_part_to_its_readings_and_budget() {
    let card = measured();
    let bores = row(&card, "liner", "bore");
    let table = piece(&card, &Words::ENGLISH, |sheet| {
        sheet.fill(Fill::Kind(bores[0].0), false)
    });
    assert!(
        table.contains("<th scope=\"row\">Cylinder 1</th>"),
        "{table}"
    );
    assert!(table.contains(&format!("data-fill=\"{}\"", Fill::Size(bores[4].0))));
    let said = text(&table);
    assert!(said.contains("Wear rate per 100,000 km"), "{said}");
    assert!(said.contains("130.00 to 130.02 mm"), "{said}");

    let one = piece(&card, &Words::ENGLISH, |sheet| {
        sheet.fill(Fill::Size(bores[2].0), false)
    });
    let said = text(&one);
    for part in [
        "130.199 130.201 130.200 mm",
        "top, thrust axis",
        "24.5 °C",
        "&lt;i&gt;Bore gauge&lt;/i&gt; 3: steps of 0.001 mm, U 0.004 mm (k = 2), last calibrated 1 January 1970",
        "Scatter of the repeats",
        "Smallest step of the gauge",
        "Calibration of the gauge",
        "Expansion of the part",
        "Coverage factor k",
        "that it keeps within the limit",
    ] {
        assert!(said.contains(part), "{part} is not in: {said}");
    }
    assert!(one.contains("href=\"#/gauging/1/"), "{one}");
}

#[test]
fn for_paper_every_kind_stands_open_with_its_readings() {
    let card = measured();
    let all = piece(&card, &Words::ENGLISH, |sheet| sheet.measured(true));
    let said = text(&all);
    assert!(!all.contains(&format!(
        "data-fill=\"{}\"",
        Fill::Size(row(&card, "liner", "bore")[0].0)
    )));
    assert!(
        said.contains("130.082 mm &lt;one&gt;") || said.contains("130.082 mm"),
        "{said}"
    );
    assert!(said.contains("54.9960 mm, as it went in"), "{said}");
}

#[test]
fn the_outlook_stands_with_its_interval_its_assumptions_and_the_caution() {
    let card = measured();
    let found = findings(&card.standing());
    let outlook = Outlook::of(&found).unwrap();
    let first = outlook.first_limit().unwrap();
    let made = piece(&card, &Words::ENGLISH, |sheet| {
        sheet.outlook(&outlook, &first)
    });
    let said = text(&made);
    for part in [
        "First limit of the engine : already beyond its limit",
        "gets there first with",
        "95 % intervals. Assumes",
        "km more,",
    ] {
        assert!(said.contains(part), "{part} is not in: {said}");
    }
    assert!(
        said.contains(&*crate::html::escape(Words::ENGLISH.cautions.reuse)),
        "{said}"
    );
}

#[test]
fn a_plan_without_sizes_has_no_such_section_and_an_engine_without_readings_says_so() {
    let plan = ringland_card::builtin(
        &ringland_card::Layout::inline_six(),
        ringland_card::Depth::Full,
    );
    let card = Card::new(ringland_card::CardId::v7(1, [2; 10]), plan.unwrap()).unwrap();
    let said = text(&piece(&card, &Words::ENGLISH, |sheet| {
        sheet.measured(false)
    }));
    assert_eq!(said, "Measured Nothing was measured");
}
