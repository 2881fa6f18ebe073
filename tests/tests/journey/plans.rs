//! A plan of one's own: derived, changed, made wrong and put right, saved, opened, used and compared.

use ringland_card::{
    Body, Card, CardId, Depth, DeviceId, Entry, EntryId, Fact, Layout, Timestamp, builtin,
    file::{self, Origin},
    plan::{Field, Plan, PlanItem},
};
use serde_json::json;
use thirtyfour::prelude::*;

use crate::{
    browser::{Browser, DESKTOP},
    serve,
};

/// Puts a text into the field of that id, in place of what stands there, and leaves it.
pub(crate) async fn type_into(browser: &Browser, id: &str, text: &str) -> WebDriverResult<()> {
    browser
        .until(
            id,
            &format!(
                "const field = document.getElementById({});\n\
                 if (field) {{ field.scrollIntoView({{ block: 'center' }}); field.focus(); field.select(); }}\n\
                 return field !== null",
                json!(id)
            ),
        )
        .await?;
    let field = browser.driver.active_element().await?;
    field.send_keys(text).await?;
    field.send_keys(Key::Tab).await
}

pub(crate) async fn says(browser: &Browser, css: &str, text: &str) -> WebDriverResult<()> {
    let script = format!(
        "return document.querySelector({})?.textContent.includes({}) ?? false",
        json!(css),
        json!(text)
    );
    browser.until(&format!("“{text}” in {css}"), &script).await
}

pub(crate) async fn opens(browser: &Browser, fill: &str) -> WebDriverResult<()> {
    let summary = format!("details[data-fill='{fill}'] > summary");
    browser.press(&summary).await
}

#[tokio::test]
async fn a_plan_is_derived_changed_saved_opened_used_and_compared() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("plans", DESKTOP).await?;
    browser.driver.goto(server.url()).await?;
    browser.press("a[href='#/plans']").await?;
    says(&browser, ".plans", "No plan of your own yet").await?;
    let name = browser.find("#new-plan-name").await?;
    name.send_keys("Yard plan").await?;
    browser.press_text("Derive the plan").await?;
    says(&browser, "#plan-title", "Yard plan").await?;
    says(
        &browser,
        "[data-part=differs]",
        "name Ringland built-in → Yard plan",
    )
    .await?;

    a_weight(&browser).await?;
    something_wrong(&browser).await?;
    a_row_off(&browser).await?;
    a_row_more(&browser).await?;
    // What was done is there again.
    browser.driver.refresh().await?;
    says(&browser, "[data-part=differs]", "Fuel pump: added").await?;
    says(&browser, "[data-part=differs]", "Camshaft: weight 2 → 4").await?;

    let path = saved(&browser).await?;
    deleted_and_back(&browser).await?;
    browser
        .find("#open-plan")
        .await?
        .send_keys(path.to_string_lossy())
        .await?;
    says(&browser, "#news", "is among your plans already").await?;
    used(&browser).await?;
    compared(&browser).await?;
    browser.close().await
}

async fn a_weight(browser: &Browser) -> WebDriverResult<()> {
    opens(browser, "section:camshaft").await?;
    type_into(browser, "f:weight:section:camshaft", "4").await?;
    says(browser, "[data-part=differs]", "Camshaft: weight 2 → 4").await
}

async fn something_wrong(browser: &Browser) -> WebDriverResult<()> {
    opens(browser, "scale:grade").await?;
    let field = "f:score:grade:grade:trace";
    type_into(browser, field, "11").await?;
    says(browser, "[data-part=foot]", "1 thing to put right").await?;
    says(
        browser,
        "[data-part=problems]",
        "Score is 11: allowed is 0 to 10",
    )
    .await?;
    let way = "[data-part=problems] [data-act=go]";
    browser.press(way).await?;
    let at_scale =
        "return document.activeElement.closest('[data-fill]')?.dataset.fill === 'scale:grade'";
    browser.until("the way to the scale", at_scale).await?;
    type_into(browser, field, "much").await?;
    says(browser, ".plan", "“much” is not a number").await?;
    type_into(browser, field, "9").await?;
    says(browser, "[data-part=foot]", "it can be used").await
}

async fn a_row_off(browser: &Browser) -> WebDriverResult<()> {
    let pitted = "look:camshaft:lobes:lobe/intake:pitted";
    browser.press(&format!("[id='{pitted}']")).await?;
    says(
        browser,
        "[data-part=differs]",
        "Lobe, intake · Pitted area: off",
    )
    .await?;
    let focus = format!("return document.activeElement.id === {}", json!(pitted));
    browser.until("the keyboard on the switch", &focus).await
}

async fn a_row_more(browser: &Browser) -> WebDriverResult<()> {
    let form = "[data-part=rows] > .plan-add";
    browser.press(&format!("{form} > summary")).await?;
    let add = format!("{form} [data-act=add]");
    browser.press(&add).await?;
    says(browser, form, "Give it a name").await?;
    for (what, text) in [("name", "Fuel pump"), ("look", "Wear")] {
        let field = browser.find(&format!("{form} [data-new={what}]")).await?;
        field.send_keys(text).await?;
    }
    browser.press(&add).await?;
    says(browser, "[data-part=differs]", "Fuel pump: added").await?;
    browser.picture("plan-editor").await
}

/// Saves the plan and looks into the file.
async fn saved(browser: &Browser) -> WebDriverResult<std::path::PathBuf> {
    browser.press("[data-part=foot] [data-act=save]").await?;
    let path = browser.saved(".plan.json").await;
    let bytes = std::fs::read(&path).expect("the saved file");
    let opened = file::read_plan(&bytes).expect("a plan");
    assert!(opened.digest_matches);
    let parent = built_in();
    assert_eq!(opened.file.derived_from, Some(Origin::of(&parent)));
    let mut wanted = opened.file.plan.clone();
    let differences = wanted.differences(&parent);
    // Name, version (an own plan begins at 1), the section more, the weight and the row that is off.
    assert_eq!(differences.len(), 5, "{differences:?}");
    let camshaft = PlanItem::parse("section:camshaft").expect("an address");
    wanted
        .set_figure(&camshaft, Field::Weight, 4.0)
        .expect("the section");
    assert_eq!(wanted, opened.file.plan);
    Ok(path)
}

fn built_in() -> Plan {
    builtin(&Layout::inline_six(), Depth::Full).expect("the built-in plan")
}

async fn deleted_and_back(browser: &Browser) -> WebDriverResult<()> {
    browser.press(".plan__home").await?;
    browser.press(".plan-list [data-act=delete]").await?;
    says(browser, ".plans", "No plan of your own yet").await?;
    browser.press("#undo-plan").await?;
    says(browser, ".plan-list", "Yard plan, version 1").await
}

async fn used(browser: &Browser) -> WebDriverResult<()> {
    on_the_bench(browser, "Yard plan").await?;
    says(browser, ".bench", "Fuel pump").await
}

/// Puts a new engine on the bench under a plan of one's own, the only one there is.
pub(crate) async fn on_the_bench(browser: &Browser, plan: &str) -> WebDriverResult<()> {
    let own = ".depth .choice__one:nth-child(3)";
    browser.press("a[href='#/shelf']").await?;
    browser.press("a[href='#/new']").await?;
    says(browser, own, &format!("{plan}, version 1")).await?;
    browser.press(own).await?;
    says(browser, ".facts__state", &format!("{plan}, version 1")).await?;
    let rater = browser.find("#rater-name, #fact-rater, #rater").await?;
    rater.send_keys("D. Farrow").await?;
    browser.press_text("Put it on the bench").await?;
    browser.find(".bench").await.map(|_bench| ())
}

async fn compared(browser: &Browser) -> WebDriverResult<()> {
    browser.press("a[href='#/shelf']").await?;
    browser.press_first_card("Tarn 14").await?;
    let choose = "const choice = document.querySelector('.under__choice');\n\
                  const option = [...(choice?.options ?? [])].find(o => o.textContent.includes('Yard plan'));\n\
                  if (option) { choice.value = option.value; choice.dispatchEvent(new Event('change', { bubbles: true })); }\n\
                  return option !== undefined";
    browser.until("the plan among the others", choose).await?;
    says(browser, ".under", "would no longer count").await?;
    says(browser, ".under", "Fuel pump").await?;
    browser.find(".under table").await?;
    browser
        .script("document.querySelector('.under').scrollIntoView()")
        .await?;
    browser.picture("card-under").await?;
    browser.press_text("Move the card to this plan").await?;
    says(browser, ".notice", "The card is now under Yard plan").await?;
    says(
        browser,
        ".card",
        "of an earlier plan have no place in this one",
    )
    .await?;
    browser.press("#undo-move").await?;
    browser
        .until(
            "the card under its own plan",
            "return !document.querySelector('.card').textContent.includes('of an earlier plan have no place')",
        )
        .await
}

impl Browser {
    /// Opens the Card of a demo engine by its name on the Shelf.
    pub(crate) async fn press_first_card(&self, name: &str) -> WebDriverResult<()> {
        let script = format!(
            "const engine = [...document.querySelectorAll('.engine')].find(e => e.textContent.includes({}));\n\
             const way = engine?.querySelector(\"a[href^='#/card/'], a[href^='#/bench/']\");\n\
             if (way) location.hash = way.getAttribute('href').replace('bench', 'card');\n\
             return way !== null && way !== undefined",
            json!(name)
        );
        self.until("the demo engine", &script).await?;
        self.find(".card .score").await.map(|_score| ())
    }
}

/// The database as the version before the plans left it opens with everything that was in it.
#[tokio::test]
async fn a_tablet_of_the_version_before_keeps_its_engines() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("before-plans", DESKTOP).await?;
    // A file of the site in which the app does not start.
    browser
        .driver
        .goto(server.url() + "manifest.webmanifest")
        .await?;
    let mut card = Card::new(CardId::v7(1, [9; 10]), built_in()).expect("a card");
    let fact = Body::Fact {
        fact: Fact::Name("From before".to_owned()),
    };
    let (id, device) = (EntryId::v7(1, [9; 10]), DeviceId::v7(1, [9; 10]));
    card.append(Entry::new(
        id,
        device,
        1,
        Timestamp::UNIX_EPOCH,
        "one",
        fact,
    ))
    .expect("an entry");
    let entries: Vec<_> = card
        .entries()
        .map(|entry| json!({ "card": card.id(), "id": entry.id, "text": file::write_entry(entry) }))
        .collect();
    let stored = json!({ "id": card.id(), "head": file::write_head(&card), "deleted": false, "altered": false });
    let script = format!(
        "return new Promise((done, failed) => {{\n\
           const request = indexedDB.open('ringland', 1);\n\
           request.onerror = () => failed(request.error);\n\
           request.onupgradeneeded = () => {{\n\
             const db = request.result;\n\
             db.createObjectStore('cards').put({}, {});\n\
             db.createObjectStore('summaries');\n\
             const entries = db.createObjectStore('entries', {{ keyPath: ['card', 'id'] }});\n\
             entries.createIndex('by_card', 'card');\n\
             for (const entry of {}) entries.put(entry);\n\
           }};\n\
           request.onsuccess = () => {{ request.result.close(); done(true); }};\n\
         }})",
        json!(stored.to_string()),
        json!(card.id()),
        json!(entries)
    );
    assert_eq!(browser.script(&script).await?, true);
    browser.driver.goto(server.url()).await?;
    browser
        .until(
            "the engine from before",
            "return document.body.innerText.includes('From before')",
        )
        .await?;
    browser.press("a[href='#/plans']").await?;
    says(&browser, ".plans", "No plan of your own yet").await?;
    browser.close().await
}
