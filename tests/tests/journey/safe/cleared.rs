//! The browser's storage cleared: the Shelf says so and offers the last backup.

use serde_json::json;
use thirtyfour::prelude::*;

use super::{begin, open_file, rate, says, shows};
use crate::{
    browser::{Browser, DESKTOP, SCREENS},
    serve,
};

async fn clear(browser: &Browser, url: &str) -> WebDriverResult<()> {
    // Away from the page, whose database would be in use.
    browser
        .driver
        .goto(&format!("{url}manifest.webmanifest"))
        .await?;
    let what = json!({ "origin": url.trim_end_matches('/'), "storageTypes": "indexeddb" });
    browser.cdp("Storage.clearDataForOrigin", what).await?;
    browser.driver.goto(url).await
}

#[tokio::test]
async fn and_the_last_backup_brings_it_back() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("cleared", DESKTOP).await?;
    let address = begin(&browser, &server.url()).await?;
    rate(&browser, 0, 4).await?;
    browser.press(".top__tab[href='#/shelf']").await?;
    browser.find_engine("Trial engine").await?;
    let here = browser
        .script("return document.querySelectorAll('.engine__name').length")
        .await?;
    browser.press_text("Back up everything").await?;
    let backup = browser.saved(".json").await;
    says(&browser, "Backup with").await?;
    let name = backup
        .file_name()
        .unwrap_or_default()
        .to_string_lossy()
        .into_owned();

    clear(&browser, &server.url()).await?;
    says(&browser, &format!("{here} engines are no longer here")).await?;
    says(&browser, &name).await?;
    for screen in SCREENS {
        browser
            .driver
            .set_window_rect(0, 0, screen.width, screen.height)
            .await?;
        for theme in ["light", "dark"] {
            browser
                .script(&format!(
                    "document.documentElement.dataset.theme = '{theme}'; scrollTo(0, 0)"
                ))
                .await?;
            browser
                .picture(&format!("safe-cleared-{}-{theme}", screen.name))
                .await?;
        }
    }
    assert_eq!(browser.violations().await?, Vec::<String>::new());
    // It stands until something is done about it.
    browser.driver.refresh().await?;
    browser.find("#cleared").await?;
    open_file(&browser, "restore-cleared", &backup).await?;
    browser
        .until(
            "the notice to go",
            "return document.querySelector('#cleared') === null",
        )
        .await?;
    browser.driver.goto(&address).await?;
    browser.driver.refresh().await?;
    shows(&browser, 4).await?;

    // Cleared once more: whoever has no use for them goes on without.
    clear(&browser, &server.url()).await?;
    browser.find("#cleared").await?;
    browser.press_text("Go on without them").await?;
    browser.driver.refresh().await?;
    says(&browser, "No engine on this tablet yet").await?;
    let again = browser
        .script("return document.querySelector('#cleared') !== null")
        .await?;
    assert_eq!(again, false);
    browser.close().await
}
