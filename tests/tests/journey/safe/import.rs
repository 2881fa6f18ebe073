//! An import stopped half way, by hand and by a killed tab.

use std::{env, path::PathBuf, time::Duration};

use ringland_card::{
    Body, Card, CardId, Depth, DeviceId, Entry, EntryId, Fact, Layout, Timestamp, builtin, file,
};
use thirtyfour::prelude::*;

use super::{entries, in_database, open_file};
use crate::{
    browser::{Browser, DESKTOP},
    serve,
};

/// A backup of so many engines with so many entries each, as a file.
pub(super) fn backup_of(name: &str, engines: u8, facts: u16) -> PathBuf {
    let files: Vec<String> = (0..engines)
        .map(|n| file::write(&engine(n, facts)))
        .collect();
    let path = env::temp_dir().join(format!("ringland-{name}-{}.json", std::process::id()));
    let backup = file::write_backup(files.iter().map(String::as_str), [], []);
    std::fs::write(&path, backup).expect("a file");
    path
}

fn engine(n: u8, facts: u16) -> Card {
    let plan = builtin(&Layout::inline_six(), Depth::Short).expect("the built-in plan");
    let mut card = Card::new(CardId::v7(1, [n + 1; 10]), plan).expect("a card");
    for fact in 0..facts {
        let entry = Entry::new(
            EntryId::v7(u64::from(fact), [n + 1; 10]),
            DeviceId::v7(1, [1; 10]),
            card.next_lamport(),
            Timestamp::UNIX_EPOCH,
            "I. Porter",
            Body::Fact {
                fact: Fact::Name(format!("Imported {n}")),
            },
        );
        card.append(entry).expect("an entry that fits");
    }
    card
}

/// Waits until some have come in; where all of them have, it was too quick to be stopped.
async fn until_under_way(browser: &Browser) -> WebDriverResult<()> {
    browser
        .until(
            "the import to be under way",
            "return /Reading [2-9] of/.test(document.body.innerText)",
        )
        .await
}

#[tokio::test]
async fn stopped_by_hand() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("stopped", DESKTOP).await?;
    browser.driver.goto(&server.url()).await?;
    browser.find(".engine__acts").await?;
    let before = entries(&browser).await?;
    open_file(&browser, "restore", &backup_of("stopped", 60, 300)).await?;
    until_under_way(&browser).await?;
    browser.press(".news__progress button").await?;
    browser
        .until(
            "how many were left",
            "return /Stopped with [0-9]+ left/.test(document.body.innerText)",
        )
        .await?;
    let came = browser
        .script("return document.querySelectorAll(\".news__line a[href^='#/bench/']\").length")
        .await?;
    let came = came.as_u64().unwrap_or_default();
    assert!((1..60).contains(&came), "stopped in the middle, at {came}");
    // Those that the screen says came in are whole, the others not there at all.
    browser.driver.refresh().await?;
    browser.find(".engine__acts").await?;
    assert_eq!(entries(&browser).await?, before + 300 * came);
    let names = browser
        .script("return [...document.querySelectorAll('.engine__name')].filter(e => e.textContent.startsWith('Imported')).length")
        .await?;
    assert_eq!(names, came);
    browser.close().await
}

#[tokio::test]
async fn stopped_by_a_killed_tab() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("import-killed", DESKTOP).await?;
    browser.driver.goto(&server.url()).await?;
    browser.find(".engine__acts").await?;
    let before = entries(&browser).await?;
    let doomed = browser.driver.window().await?;
    let other = browser.driver.new_tab().await?;
    browser.driver.switch_to_window(doomed).await?;
    open_file(&browser, "restore", &backup_of("import-killed", 60, 300)).await?;
    until_under_way(&browser).await?;
    let crash = browser.cdp("Page.crash", serde_json::json!({}));
    let _gone = tokio::time::timeout(Duration::from_secs(2), crash).await;
    browser.driver.switch_to_window(other).await?;
    browser.driver.goto(&server.url()).await?;
    browser.find(".engine__acts").await?;
    let came = entries(&browser).await? - before;
    let cards = in_database(
        &browser,
        "const ask = db.transaction('cards').objectStore('cards').getAllKeys();\n\
         ask.onsuccess = () => { db.close(); done(ask.result.filter(k => k.startsWith('00000000-0001')).length); }",
    )
    .await?;
    let cards = cards.as_u64().unwrap_or_default();
    assert!((1..60).contains(&cards), "killed in the middle, at {cards}");
    assert_eq!(
        came,
        cards * 300,
        "each engine is there whole or not at all"
    );
    browser.close().await
}
