//! Rules, levels, criteria, positions and the order of rows of a plan of one's own, on the editor's page.

use serde_json::json;
use thirtyfour::prelude::*;

use crate::{
    browser::{Browser, DESKTOP},
    plans::{on_the_bench, opens, says, type_into},
    serve,
};

const DIFFERS: &str = "[data-part=differs]";

/// Derives a plan and waits for its editor.
pub(crate) async fn derive(browser: &Browser, url: &str, name: &str) -> WebDriverResult<()> {
    browser.driver.goto(url).await?;
    browser.press("a[href='#/plans']").await?;
    let field = browser.find("#new-plan-name").await?;
    field.send_keys(name).await?;
    browser.press_text("Derive the plan").await?;
    says(browser, "#plan-title", name).await
}

/// Chooses in a field as a hand would.
async fn choose(browser: &Browser, css: &str, value: &str) -> WebDriverResult<()> {
    let script = format!(
        "const choice = document.querySelector({});\n\
         const there = [...(choice?.options ?? [])].some(o => o.value === {1});\n\
         if (there) {{ choice.focus(); choice.value = {1}; choice.dispatchEvent(new Event('change', {{ bubbles: true }})); }}\n\
         return there",
        json!(css),
        json!(value)
    );
    browser.until(&format!("{value} in {css}"), &script).await
}

async fn has_focus(browser: &Browser, id: &str) -> WebDriverResult<()> {
    let script = format!("return document.activeElement.id === {}", json!(id));
    browser.until(&format!("the focus on {id}"), &script).await
}

/// Fills the fields of an open form and presses its button.
async fn add(browser: &Browser, form: &str, typed: &[(&str, &str)]) -> WebDriverResult<()> {
    for (what, text) in typed {
        let field = browser.find(&format!("{form} [data-new={what}]")).await?;
        field.clear().await?;
        field.send_keys(*text).await?;
    }
    browser.press(&format!("{form} [data-act=add]")).await
}

#[tokio::test]
async fn a_plan_has_rules_levels_criteria_and_an_order_of_its_own() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("plan-rules", DESKTOP).await?;
    derive(&browser, &server.url(), "Ruled plan").await?;
    a_rule(&browser).await?;
    states(&browser).await?;
    criteria(&browser).await?;
    positions_and_order(&browser).await?;
    let found = browser.violations().await?;
    assert!(found.is_empty(), "{}", found.join("\n"));
    // What was done is there again.
    browser.driver.refresh().await?;
    for said in [
        "Journals worn: added",
        "Sluggish when cold: added",
        "Criterion 1, Sludge merit: added",
        "Cylinder 3, injector lobe: off",
        "order changed",
    ] {
        says(&browser, DIFFERS, said).await?;
    }
    on_the_bench(&browser, "Ruled plan").await?;
    says(&browser, ".bench", "Camshaft").await?;
    the_card_says_how_many_are_lost(&browser).await?;
    browser.close().await
}

async fn a_rule(browser: &Browser) -> WebDriverResult<()> {
    let form = "[data-part=caps] > .plan-add";
    browser.press(&format!("{form} > summary")).await?;
    add(browser, form, &[]).await?;
    says(browser, form, "Give it a name").await?;
    choose(browser, &format!("{form} [data-new=node]"), "camshaft").await?;
    add(browser, form, &[("name", "Journals worn")]).await?;
    says(browser, DIFFERS, "Journals worn: added").await?;
    has_focus(browser, "cap:journals_worn").await?;
    let field = |name: &str| format!("[id='f:{name}:cap:journals_worn']");
    choose(browser, &field("within"), "camshaft/lobes").await?;
    choose(browser, &field("characteristic"), "wear").await?;
    choose(browser, &field("when"), "severe").await?;
    has_focus(browser, "f:when:cap:journals_worn").await?;
    says(
        browser,
        "[data-said='cap:journals_worn']",
        "severe or worse in Lobes: Camshaft at most",
    )
    .await?;
    type_into(browser, "f:cap:cap:journals_worn", "12").await?;
    says(browser, "[data-part=foot]", "1 thing to put right").await?;
    type_into(browser, "f:cap:cap:journals_worn", "4").await?;
    says(browser, "[data-part=foot]", "it can be used").await?;
    browser.picture("plan-rules").await
}

async fn states(browser: &Browser) -> WebDriverResult<()> {
    opens(browser, "scale:mobility").await?;
    browser.press("[id='state:mobility:cold_stuck']").await?;
    says(browser, DIFFERS, "Ring mobility · Cold-stuck: off").await?;
    let form = "[data-fill='scale:mobility'] .plan-add";
    browser.press(&format!("{form} > summary")).await?;
    add(
        browser,
        form,
        &[("name", "Sluggish when cold"), ("score", "much")],
    )
    .await?;
    says(browser, form, "“much” is not a number").await?;
    add(browser, form, &[("score", "8")]).await?;
    says(browser, DIFFERS, "Sluggish when cold: added").await?;
    browser
        .press("[id='up:state:mobility:sluggish_when_cold']")
        .await?;
    says(
        browser,
        DIFFERS,
        "Ring mobility · Sluggish when cold: added",
    )
    .await?;
    browser.picture("plan-states").await
}

async fn criteria(browser: &Browser) -> WebDriverResult<()> {
    let form = "[data-part=criteria] > .plan-add";
    browser.press(&format!("{form} > summary")).await?;
    choose(
        browser,
        &format!("{form} [data-new=figure]"),
        "sludge_merit",
    )
    .await?;
    add(browser, form, &[("weight", "150")]).await?;
    says(browser, form, "Best credit:").await?;
    let figures = [("best", "9.3"), ("anchor", "9.0"), ("limit", "9.1")];
    add(browser, form, &figures).await?;
    says(browser, "[data-part=foot]", "1 thing to put right").await?;
    browser.press("[data-part=problems] [data-act=go]").await?;
    has_focus(browser, "f:anchor:criterion:0").await?;
    type_into(browser, "f:limit:criterion:0", "8.7").await?;
    says(browser, "[data-part=foot]", "it can be used").await?;
    says(browser, DIFFERS, "Criterion 1, Sludge merit: added").await
}

async fn positions_and_order(browser: &Browser) -> WebDriverResult<()> {
    opens(browser, "section:camshaft").await?;
    let lobe = "position:camshaft:lobes:lobe/injector:cyl3/lobe/injector";
    browser.press(&format!("[id='{lobe}']")).await?;
    says(browser, DIFFERS, "Cylinder 3, injector lobe: off").await?;
    has_focus(browser, lobe).await?;
    let place = "place:camshaft:lobes:lobe/intake";
    browser.press(&format!("[id='down:{place}']")).await?;
    says(browser, DIFFERS, "order changed").await?;
    has_focus(browser, &format!("down:{place}")).await?;
    browser.picture("plan-order").await
}

/// A demo engine that was rated at a state that is off here.
async fn the_card_says_how_many_are_lost(browser: &Browser) -> WebDriverResult<()> {
    browser.press("a[href='#/shelf']").await?;
    browser.press_first_card("Tarn 14").await?;
    let choose = "const choice = document.querySelector('.under__choice');\n\
                  const option = [...(choice?.options ?? [])].find(o => o.textContent.includes('Ruled plan'));\n\
                  if (option) { choice.value = option.value; choice.dispatchEvent(new Event('change', { bubbles: true })); }\n\
                  return option !== undefined";
    browser.until("the plan among the others", choose).await?;
    says(
        browser,
        ".under",
        "would no longer count: kept on the card, not scored",
    )
    .await?;
    let count = "return Number(document.querySelector('.under').textContent.match(/([0-9]+) places? that w[a-z]+ rated or measured would no longer count/)[1])";
    let count = browser.script(count).await?.as_f64().unwrap_or_default();
    browser.press_text("Move the card to this plan").await?;
    says(browser, ".notice", "The card is now under Ruled plan").await?;
    // A place that is measured has several readings: there are at least as many as places.
    let script = format!(
        "const said = document.querySelector('.card').textContent.match(/([0-9]+) looks and readings of an earlier plan/);\n\
         return {count} > 0 && said !== null && Number(said[1]) >= {count}"
    );
    browser
        .until("how many are kept and not scored", &script)
        .await
}
