//! Two tabs on one card: they stay in step, and neither writes over the other.

use std::collections::BTreeSet;

use ringland_card::{Body, file};
use thirtyfour::prelude::*;

use super::{begin, entries, looks, press_in_page, rate, says, shows};
use crate::{
    browser::{Browser, DESKTOP},
    serve,
};

#[tokio::test]
async fn two_tabs_on_one_card() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("tabs", DESKTOP).await?;
    let driver = &browser.driver;
    let address = begin(&browser, &server.url()).await?;
    rate(&browser, 0, 3).await?;
    let first = driver.window().await?;
    let second = driver.new_window().await?;

    driver.switch_to_window(second.clone()).await?;
    driver.goto(&address).await?;
    shows(&browser, 3).await?;
    browser.press(".pad .button--act").await?;
    rate(&browser, 3, 5).await?;
    driver.switch_to_window(first.clone()).await?;
    shows(&browser, 5).await?;

    // Both at once, quicker than either hears of the other.
    let before = entries(&browser).await?;
    press_in_page(&browser, 20, 3).await?;
    driver.switch_to_window(second.clone()).await?;
    press_in_page(&browser, 20, 3).await?;
    let mut now = before;
    for _ in 0..600 {
        tokio::time::sleep(std::time::Duration::from_millis(50)).await;
        now = entries(&browser).await?;
        if now == before + 40 {
            break;
        }
    }
    assert_eq!(now, before + 40, "each key is an entry");
    let here = looks(&browser).await?;
    driver.switch_to_window(first.clone()).await?;
    shows(&browser, here).await?;

    // The counters went on from the higher: no two entries stand side by side.
    browser.press(".top__tab[href^='#/card']").await?;
    browser.find(".card .score").await?;
    browser.press_text("Save").await?;
    let path = browser.saved(".card.json").await;
    tokio::time::sleep(std::time::Duration::from_millis(300)).await;
    let bytes = std::fs::read(path).expect("the saved file");
    let card = file::read(&bytes).expect("a card").card;
    let lamports: BTreeSet<u64> = card.entries().map(|entry| entry.lamport).collect();
    assert_eq!(lamports.len(), card.len());
    let rated = card
        .entries()
        .filter(|entry| matches!(entry.body, Body::Rating { .. }));
    assert_eq!(rated.count(), 45);

    // Deleted in the one: the other keeps nothing more on it, and says so; it is in the bin.
    browser.press(".top__tab[href='#/shelf']").await?;
    browser.find_engine("Trial engine").await?;
    // The Shelf may be read anew between looking and pressing.
    browser
        .until(
            "what else may be done",
            "document.querySelector('[data-found] .engine__more')?.click();\n\
             return [...document.querySelectorAll('button')].some(b => b.textContent === 'Delete…')",
        )
        .await?;
    browser.press_text("Delete…").await?;
    browser.press_text("Delete it").await?;
    says(&browser, "Trial engine deleted").await?;
    driver.switch_to_window(second).await?;
    press_in_page(&browser, 1, 1).await?;
    says(&browser, "This engine is no longer on this tablet").await?;
    driver.goto(&server.url()).await?;
    driver.refresh().await?;
    // A second start does not empty the first one's bin.
    says(&browser, "In the bin").await?;
    browser.press_text("Bring it back").await?;
    driver.switch_to_window(first).await?;
    browser.find_engine("Trial engine").await?;
    browser.close().await
}
