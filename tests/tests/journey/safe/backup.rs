//! A reminder while the last backup is old, and what the browser answered about keeping the storage.

use serde_json::json;
use thirtyfour::prelude::*;

use super::{begin, rate, says};
use crate::{
    browser::{Browser, DESKTOP},
    serve,
};

/// Sets what the tablet remembers back by so many days.
async fn days_pass(browser: &Browser, days: u32) -> WebDriverResult<()> {
    let script = format!(
        "const set = JSON.parse(localStorage.getItem('ringland.settings'));\n\
         for (const when of ['began_ms', 'last_backup_ms'])\n\
           if (set[when]) set[when] -= {days} * 24 * 60 * 60 * 1000;\n\
         localStorage.setItem('ringland.settings', JSON.stringify(set));\n\
         location.reload()"
    );
    browser.script(&script).await?;
    browser
        .until(
            "the Shelf",
            "return document.querySelector('.engine__acts') !== null",
        )
        .await
}

async fn reminds(browser: &Browser) -> WebDriverResult<bool> {
    let there = browser
        .script("return document.querySelector('#backup-due') !== null")
        .await?;
    Ok(there == true)
}

#[tokio::test]
async fn a_reminder_until_there_is_a_backup() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("backup", DESKTOP).await?;
    browser.driver.goto(&server.url()).await?;
    browser.find(".engine__acts").await?;
    days_pass(&browser, 9).await?;
    assert!(!reminds(&browser).await?, "the demo engines need no backup");
    let bench = begin(&browser, &server.url()).await?;
    rate(&browser, 0, 2).await?;
    browser.press(".top__tab[href='#/shelf']").await?;
    browser.find("#backup-due").await?;
    says(&browser, "1 engine has entries that are in no backup").await?;
    browser.picture("safe-reminder").await?;
    assert_eq!(browser.violations().await?, Vec::<String>::new());
    browser.press("#backup-due .button").await?;
    says(&browser, "Backup with").await?;
    browser
        .until(
            "the reminder to go",
            "return document.querySelector('#backup-due') === null",
        )
        .await?;
    days_pass(&browser, 9).await?;
    assert!(!reminds(&browser).await?, "nothing was written since");
    browser.driver.goto(&bench).await?;
    browser.press(".pad .button--act").await?;
    rate(&browser, 2, 3).await?;
    browser.press(".top__tab[href='#/shelf']").await?;
    browser.find("#backup-due").await?;
    says(&browser, "The last backup is 9 days old").await?;
    browser.close().await
}

#[tokio::test]
async fn what_the_browser_answered() -> WebDriverResult<()> {
    let server = serve();
    for (answer, said) in [
        ("true", "The browser has promised to keep this storage"),
        ("false", "The browser does not promise to keep this storage"),
    ] {
        let browser = Browser::open(&format!("stays-{answer}"), DESKTOP).await?;
        let source = format!(
            "window.asked = 0; const may = () => Promise.resolve({answer} && asked > 0);\n\
             navigator.storage.persisted = may;\n\
             navigator.storage.persist = () => {{ asked++; localStorage.setItem('asked', asked); return may(); }}"
        );
        browser
            .cdp(
                "Page.addScriptToEvaluateOnNewDocument",
                json!({ "source": source }),
            )
            .await?;
        browser.driver.goto(&server.url()).await?;
        says(&browser, "The browser may clear this storage").await?;
        // It is asked once, with the first engine that is worth keeping.
        begin(&browser, &server.url()).await?;
        browser
            .until(
                "the browser to be asked",
                "return localStorage.getItem('asked') === '1'",
            )
            .await?;
        browser.press(".top__tab[href='#/shelf']").await?;
        says(&browser, said).await?;
        browser.close().await?;
    }
    Ok(())
}
