//! The main journey once more, in browsers of other makers.

use ringland_card::{Depth, Layout, builtin, file};
use thirtyfour::prelude::*;

use crate::{
    bench::{keys, new_engine_of, type_looks},
    browser::{Browser, DESKTOP, Kind},
    dist, serve,
};

#[tokio::test]
async fn the_main_journey_in_firefox() -> WebDriverResult<()> {
    main_journey(Kind::Firefox).await
}

#[tokio::test]
async fn the_main_journey_in_webkit() -> WebDriverResult<()> {
    main_journey(Kind::WebKit).await
}

/// A new engine, every rating of the short plan by keyboard, reload, Card, save, open again, merge.
async fn main_journey(kind: Kind) -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open_as(kind, kind.name(), DESKTOP).await?;
    browser.driver.goto(server.url()).await?;
    new_engine_of(&browser, Depth::Short, "D. Farrow").await?;
    browser.press(".pad .button--act").await?;
    let plan = builtin(&Layout::inline_six(), Depth::Short).expect("the built-in plan");
    type_looks(&browser, &keys(&plan)).await?;
    let all = plan.rating_count();

    browser.driver.goto(server.url()).await?;
    browser.script("location.reload()").await?;
    browser
        .until(
            "the engine on the Shelf after a reload",
            "return document.body.innerText.includes('Trial engine')",
        )
        .await?;
    browser
        .script(
            "[...document.querySelectorAll('.engine')].find(e => e.textContent.includes('Trial engine'))\n\
             .querySelector(\"a[href^='#/bench/']\").click()",
        )
        .await?;
    browser
        .until("every look after a reload", &format!("return document.querySelector('#progress')?.textContent.startsWith('{all} of {all} ') ?? false"))
        .await?;
    browser.picture(&format!("bench-{}", kind.name())).await?;

    browser.press(".top__tab[href^='#/card']").await?;
    browser.find(".card .score").await?;
    browser.picture(&format!("card-{}", kind.name())).await?;
    let card = if kind == Kind::WebKit {
        // Its little browser saves without telling where: the file is one that lies beside the site.
        demo_card()
    } else {
        browser.press_text("Save").await?;
        let path = browser.saved(".card.json").await;
        tokio::time::sleep(std::time::Duration::from_millis(300)).await;
        let bytes = std::fs::read(&path).expect("the saved file");
        let opened = file::read(&bytes).expect("a card");
        assert!(opened.digest_matches);
        assert_eq!(file::write(&opened.card).as_bytes(), bytes.as_slice());
        path
    };
    browser.press(".top__tab[href='#/shelf']").await?;
    let input = browser.find("input[type=file]").await?;
    input.send_keys(card.to_string_lossy().to_string()).await?;
    browser
        .until(
            "what merging came to",
            "return /nothing new|0 new entr|0 entr/i.test(document.body.innerText)",
        )
        .await?;
    browser.close().await
}

/// A demo engine's file, which is on the Shelf already.
fn demo_card() -> std::path::PathBuf {
    std::fs::read_dir(dist())
        .expect("the built site")
        .filter_map(|entry| entry.ok().map(|entry| entry.path()))
        .find(|path| path.to_string_lossy().contains("demo-tarn-21"))
        .expect("a demo engine in the site")
}
