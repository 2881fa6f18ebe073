//! The page that is handed over: written on the tablet as the command writes it, shown without a script, printed,
//! and opened again.

use std::{collections::BTreeSet, fs, path::Path};

use base64ct::{Base64, Encoding};
use ringland_card::file;
use ringland_report::handover::{ReadAs, page_of};
use serde_json::json;
use suite::demo;
use thirtyfour::prelude::*;

use crate::{
    browser::{Browser, DESKTOP, SCREENS},
    plans::says,
    serve,
    texts::hostile_card,
};

/// A4 and Letter, in inches.
const PAPERS: [(&str, f64, f64); 2] = [("A4", 8.27, 11.69), ("Letter", 8.5, 11.0)];

/// A browser that hands files on: on a desk it has nobody to hand them to.
const SHARING: &str = "Object.defineProperty(navigator, 'canShare', { value: data => data.files?.length === 1 });\n\
    Object.defineProperty(navigator, 'share', { value: async data => { window.shared = await data.files[0].text() } })";

#[tokio::test]
async fn the_tablet_writes_the_page_that_the_command_writes() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("handover", SCREENS[0]).await?;
    let utc = json!({ "timezoneId": "UTC" });
    browser.cdp("Emulation.setTimezoneOverride", utc).await?;
    browser.driver.goto(server.url()).await?;
    let cards = demo::cards().expect("the demo engines");
    // With sizes, another cause and a second rater among its looks, as far as one engine has them all.
    let (_, card) = cards
        .iter()
        .max_by_key(|(_, card)| card.len())
        .expect("an engine");
    let opened = file::read(file::write(card).as_bytes()).expect("a demo card");
    browser
        .find(&format!("a[href='#/card/{}']", card.id()))
        .await?;
    let address = format!("location.hash = '#/card/{}'", card.id());
    browser.script(&address).await?;
    browser.script(SHARING).await?;
    browser.press("#report").await?;
    let saved = browser.saved(".card.html").await;
    let page = fs::read_to_string(&saved).expect("the page that was saved");
    // Megabytes of difference would tell nobody anything.
    assert!(
        page == page_of(&opened, ReadAs::default(), &BTreeSet::new()),
        "the tablet's page is not the command's"
    );

    says(&browser, ".head__made", "Tarn").await?;
    browser.picture("report-saved").await?;
    browser.press("#hand-on").await?;
    let same = format!(
        "return window.shared?.length === {}",
        page.encode_utf16().count()
    );
    browser.until("the page to be handed on", &same).await?;

    browser.script("location.hash = '#/shelf'").await?;
    let input = browser.find("input[type=file]").await?;
    input.send_keys(saved.to_string_lossy().to_string()).await?;
    browser
        .until(
            "the page to come in as the card that is here",
            "return document.querySelector('.news')?.textContent.includes('Nothing new') ?? false",
        )
        .await?;
    browser.close().await
}

#[tokio::test]
async fn a_page_from_outside_shows_prints_and_opens_and_runs_nothing() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("handover-hostile", DESKTOP).await?;
    let card = hostile_card();
    let opened = file::read(file::write(&card).as_bytes()).expect("a card");
    let folder = std::env::temp_dir();
    let at = folder.join(format!("ringland-page{}.card.html", std::process::id()));
    fs::write(&at, page_of(&opened, ReadAs::default(), &BTreeSet::new())).expect("a page");
    stands_still(&browser, &at).await?;
    let demo = demo::cards().expect("the demo engines");
    for (number, screen) in SCREENS.iter().enumerate() {
        let (name, card) = &demo[number % demo.len()];
        let opened = file::read(file::write(card).as_bytes()).expect("a demo card");
        let shown = folder.join(format!("ringland-{name}{}.card.html", std::process::id()));
        fs::write(
            &shown,
            page_of(&opened, ReadAs::default(), &BTreeSet::new()),
        )
        .expect("a page");
        let metrics = json!({
            "width": screen.width, "height": screen.height, "deviceScaleFactor": 1, "mobile": screen.touch,
        });
        browser
            .cdp("Emulation.setDeviceMetricsOverride", metrics)
            .await?;
        stands_still(&browser, &shown).await?;
        browser
            .picture(&format!("handover-{}", screen.name))
            .await?;
        prints(&browser).await?;
        let _left = fs::remove_file(shown);
    }

    browser.driver.goto(server.url()).await?;
    let input = browser.find("input[type=file]").await?;
    input.send_keys(at.to_string_lossy().to_string()).await?;
    browser
        .find(&format!("a[href='#/card/{}']", card.id()))
        .await?;
    let _left = fs::remove_file(at);
    browser.close().await
}

/// Nothing of the page ran, nothing was loaded, nothing is wider than the screen, and nothing keeps anybody out.
async fn stands_still(browser: &Browser, page: &Path) -> WebDriverResult<()> {
    let address = format!("file://{}", page.display());
    browser.driver.goto(&address).await?;
    browser.find(".plain__list").await?;
    let found = browser
        .script(
            "return [window.struck ?? 0, document.scripts.length,\n\
               document.querySelectorAll('img, iframe, [onerror], [onload]').length,\n\
               document.documentElement.scrollWidth - document.documentElement.clientWidth]",
        )
        .await?;
    assert_eq!(found, json!([0, 0, 0, 0]), "{}", page.display());
    let loaded = browser.loaded().await?;
    assert!(loaded.is_empty(), "{loaded:?}");
    let found = browser.violations().await?;
    assert!(found.is_empty(), "{}", found.join("\n"));
    Ok(())
}

/// The browser makes sheets of paper of it, more than one and not a ream.
async fn prints(browser: &Browser) -> WebDriverResult<()> {
    for (paper, width, height) in PAPERS {
        let asked = json!({ "paperWidth": width, "paperHeight": height, "printBackground": true });
        let printed = browser.cdp("Page.printToPDF", asked).await?;
        let held = printed["data"].as_str().expect("a document");
        let sheets = sheets(held);
        assert!((4..40).contains(&sheets), "{paper}: {sheets} sheets");
    }
    Ok(())
}

/// How many pages a PDF in base64 has: how often its objects say that they are one.
fn sheets(held: &str) -> usize {
    let pdf = Base64::decode_vec(held).expect("base64");
    let text = String::from_utf8_lossy(&pdf);
    text.split("/Type /Page")
        .skip(1)
        .filter(|after| !after.starts_with('s'))
        .count()
}
