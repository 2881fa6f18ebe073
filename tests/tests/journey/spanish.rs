//! The main journey in Spanish: the browser's language is taken at the first start, a decimal comma is
//! a decimal comma, and the file that comes of it says nothing of the language.

use ringland_card::{
    Body, Depth, Entry, Fact, FactField, Layout, Look, Plan, PlanIndex, Scale, builtin, file,
    plan::Leaf,
};
use serde_json::json;
use thirtyfour::prelude::*;

use crate::{
    bench::{keys, type_looks},
    browser::{Browser, DESKTOP},
    serve,
};

/// Has the browser ask for Spanish of Mexico, as a tablet there does.
pub(crate) async fn ask_for_spanish(browser: &Browser) -> WebDriverResult<()> {
    let agent = browser.script("return navigator.userAgent").await?;
    let asked = json!({ "userAgent": agent, "acceptLanguage": "es-MX,es,en" });
    browser
        .cdp("Emulation.setUserAgentOverride", asked)
        .await
        .map(|_| ())
}

/// Waits until the page says it is in that language and a text of its stands on it.
pub(crate) async fn speaks(browser: &Browser, tag: &str, text: &str) -> WebDriverResult<()> {
    let script = format!(
        "return document.documentElement.lang === {} && document.body.innerText.includes({})",
        json!(tag),
        json!(text)
    );
    browser.until(&format!("`{text}` in {tag}"), &script).await
}

#[tokio::test]
async fn a_whole_journey_in_spanish() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("spanish", DESKTOP).await?;
    ask_for_spanish(&browser).await?;
    browser.driver.goto(server.url()).await?;
    speaks(&browser, "es", "Motores en esta tableta").await?;

    browser.press("a[href='#/new']").await?;
    browser.press(".depth .choice__one:nth-child(2)").await?;
    for (field, text) in [
        ("#fact-name", "Motor de ensayo"),
        ("#fact-sump", "37,5"),
        ("#rater-name", "E. Peña"),
    ] {
        browser.find(field).await?.send_keys(text).await?;
    }
    browser.press(".facts__foot .button--act").await?;
    browser.press(".pad .button--act").await?;

    let plan = builtin(&Layout::inline_six(), Depth::Short).expect("the built-in plan");
    let mut looks = keys(&plan);
    for (_, typed) in &mut looks {
        // A share of 1.5 percent, typed ahead of the screen with the comma of a Spanish keyboard.
        *typed = typed.replace("12\u{e007}", "1,5\u{e007}");
    }
    type_looks(&browser, &looks).await?;
    // A step taken back and made anew leaves a reason in the file.
    let all = plan.rating_count();
    for (key, done) in [("u", all - 1), ("y", all)] {
        browser
            .driver
            .action_chain()
            .send_keys(key)
            .perform()
            .await?;
        let counted = format!(
            "return document.querySelector('#progress').textContent.startsWith('{done} de ')"
        );
        browser.until("the step", &counted).await?;
    }
    type_a_share(&browser, &plan).await?;

    // Another language leaves the leaf on the pad.
    let on_the_pad = "return document.querySelector('.map [aria-current=true]').dataset.leaf";
    let leaf = browser.script(on_the_pad).await?;
    for (press, word) in [("en", "Undo"), ("es", "Deshacer")] {
        browser
            .press(&format!(".top__language[lang='{press}']"))
            .await?;
        speaks(&browser, press, word).await?;
        assert_eq!(browser.script(on_the_pad).await?, leaf);
    }

    browser.press(".top__tab[href^='#/card']").await?;
    speaks(&browser, "es", "Lo que más la baja").await?;
    browser.picture("card-spanish").await?;
    browser.press(".head__acts .button").await?;
    let path = browser.saved(".card.json").await;
    tokio::time::sleep(std::time::Duration::from_millis(300)).await;
    let bytes = std::fs::read(&path).expect("the saved file");
    check_file(&bytes, &plan);

    // Another language takes effect at once, and the Card is made anew in it.
    browser.press(".top__language[lang='en']").await?;
    speaks(&browser, "en", "What holds it down").await?;
    browser.press(".top__language[lang='es']").await?;
    speaks(&browser, "es", "Lo que más la baja").await?;
    browser.driver.refresh().await?;
    speaks(&browser, "es", "Lo que más la baja").await?;
    browser.close().await
}

/// Types a share with the comma of a Spanish keyboard.
async fn type_a_share(browser: &Browser, plan: &Plan) -> WebDriverResult<()> {
    let index = PlanIndex::of(plan);
    let extent = |leaf: &Leaf| {
        let scale = plan.scale(&leaf.characteristic(plan).scale);
        matches!(scale, Some(Scale::Extent { .. }))
    };
    let leaf = index.leaves().iter().position(extent).expect("a share");
    browser.press(".top__tab[href^='#/card']").await?;
    browser.find(".card").await?;
    browser
        .script(&format!(
            "location.hash = location.hash.replace('card', 'bench') + '/{leaf}'"
        ))
        .await?;
    let field = browser.find("#typed").await?;
    let head = "document.querySelector('.pad__head').textContent";
    let before = browser.script(&format!("return {head}")).await?;
    field.send_keys("12,5\u{e007}").await?;
    browser
        .until(
            "the share to be kept",
            &format!("return {head} !== {before}"),
        )
        .await?;
    // Those who listen hear what was kept and what is next, once.
    let said = "const said = document.querySelector('#announce').textContent;\n\
        return said.includes('12,5') && said.includes('. Ahora: ')";
    browser.until("what is said aloud", said).await
}

/// The share that an entry says.
fn percent(entry: &Entry) -> Option<f64> {
    match &entry.body {
        Body::Rating {
            look: Look::Percent(percent),
            ..
        } => Some(*percent),
        _ => None,
    }
}

/// The file is the one that the native reader would write, holds what was typed, and is of no language
/// but that of what a person typed.
fn check_file(bytes: &[u8], plan: &Plan) {
    let opened = file::read(bytes).expect("a card");
    assert!(opened.digest_matches);
    assert_eq!(file::write(&opened.card).as_bytes(), bytes);
    assert_eq!(opened.card.plan(), plan);
    let standing = opened.card.standing();
    let sump = standing.fact(FactField::Sump).and_then(Fact::si);
    assert_eq!(sump, Some(0.0375));
    let shares: Vec<f64> = standing
        .looks
        .iter()
        .flatten()
        .copied()
        .filter_map(percent)
        .collect();
    let typed = |share: &f64| [1.5, 12.5].contains(share);
    assert!(
        shares.contains(&12.5) && shares.iter().all(typed),
        "{shares:?}"
    );
    let text = String::from_utf8_lossy(bytes);
    assert!(text.contains("undone"), "the reason of what was taken back");
    for spanish in [
        "deshecho",
        "Deshecho",
        "\"es\"",
        "es-MX",
        "Leve",
        "puntuación",
    ] {
        assert!(!text.contains(spanish), "the file says `{spanish}`");
    }
}
