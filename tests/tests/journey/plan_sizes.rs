//! A size that the built-in plan lacks: made in a plan of one's own, then measured on an engine under it.

use thirtyfour::prelude::*;

use crate::{
    browser::{Browser, DESKTOP},
    plans::{on_the_bench, opens, says},
    serve,
};

#[tokio::test]
async fn a_size_of_ones_own_is_made_and_measured() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("plan-sizes", DESKTOP).await?;
    browser.driver.goto(server.url()).await?;
    browser.press("a[href='#/plans']").await?;
    browser
        .find("#new-plan-name")
        .await?
        .send_keys("Pump plan")
        .await?;
    browser.press_text("Derive the plan").await?;
    says(&browser, "#plan-title", "Pump plan").await?;

    let form = "[data-part=scales] > .plan-add";
    browser.press(&format!("{form} > summary")).await?;
    fill(
        &browser,
        form,
        &[("name", "Barrel face"), ("stations", "top")],
    )
    .await?;
    choose(&browser, form, "makes", "difference").await?;
    browser.press(&format!("{form} [data-act=add]")).await?;
    says(&browser, form, "A difference takes two").await?;
    let found = browser.violations().await?;
    assert!(found.is_empty(), "{}", found.join("\n"));
    browser.picture("plan-size").await?;
    choose(&browser, form, "makes", "furthest").await?;
    choose(&browser, form, "wears", "smaller").await?;
    fill(&browser, form, &[("stations", ", Outer rim")]).await?;
    browser.press(&format!("{form} [data-act=add]")).await?;
    says(&browser, "[data-part=differs]", "Barrel face: added").await?;
    opens_scale(&browser).await?;

    let form = "[data-part=rows] > .plan-add";
    browser.press(&format!("{form} > summary")).await?;
    fill(&browser, form, &[("name", "Fuel pump"), ("look", "Barrel")]).await?;
    choose(&browser, form, "scale", "barrel_face").await?;
    browser.press(&format!("{form} [data-act=add]")).await?;
    says(&browser, "[data-part=differs]", "Fuel pump: added").await?;
    says(&browser, "[data-part=foot]", "it can be used").await?;

    on_the_bench(&browser, "Pump plan").await?;
    browser
        .script("location.hash = location.hash.replace('bench', 'gauging')")
        .await?;
    let kind = "const kind = [...document.querySelectorAll('[data-kind]')].find(kind => kind.textContent.includes('Fuel pump'));\n\
        kind?.click(); return kind !== undefined";
    browser.until("the pump among the sizes", kind).await?;
    browser.picture("plan-size-gauged").await?;
    says(&browser, ".gaugebox__grid", "outer rim").await?;
    let fields = browser.driver.find_all(By::Css(".gaugebox__read")).await?;
    assert_eq!(fields.len(), 2 * 6, "two spots on each of six cylinders");
    fields[0].send_keys("12.341" + Key::Enter).await?;
    fields[1].send_keys("12.338" + Key::Enter).await?;
    says(&browser, ".gaugebox__found", "12.338").await?;
    browser.close().await
}

/// The scale opens to how it is read; while nothing uses it, it may go.
async fn opens_scale(browser: &Browser) -> WebDriverResult<()> {
    let fold = "details[data-fill='scale:barrel_face']";
    let open = format!("return document.querySelector(\"{fold}\")?.open ?? false");
    if browser.script(&open).await?.as_bool() != Some(true) {
        opens(browser, "scale:barrel_face").await?;
    }
    for said in ["shrinks", "top, outer rim", "a length"] {
        says(browser, fold, said).await?;
    }
    browser
        .find(&format!("{fold} [data-act=remove]"))
        .await
        .map(|_button| ())
}

async fn fill(browser: &Browser, form: &str, texts: &[(&str, &str)]) -> WebDriverResult<()> {
    for (what, text) in texts {
        let field = browser.find(&format!("{form} [data-new={what}]")).await?;
        field.send_keys(*text).await?;
    }
    Ok(())
}

async fn choose(browser: &Browser, form: &str, what: &str, value: &str) -> WebDriverResult<()> {
    let script = format!(
        "const choice = document.querySelector('{form} [data-new={what}]');\n\
         choice.value = '{value}'; return choice.value === '{value}'"
    );
    browser.until(what, &script).await
}
