//! The disk is full: during a rating, and during an import.

use std::time::{Duration, Instant};

use serde_json::json;
use thirtyfour::prelude::*;
use xtask::server::Server;

use super::{begin, entries, import::backup_of, open_file, rate, says, says_kept, shows};
use crate::{
    browser::{Browser, DESKTOP},
    photos::{from_camera, on_disk, pick, written},
    serve,
};

/// Bytes that the page may take in all: enough for the site and its engines.
const ROOM: u64 = 24 << 20;
/// The browser remembers for half a minute how much room there was.
const REMEMBERED: Duration = Duration::from_mins(1);

/// A browser with little room, and a card with so many looks kept.
async fn little_room(
    name: &str,
    server: &Server,
    looks: usize,
) -> WebDriverResult<(Browser, String)> {
    let browser = Browser::open(name, DESKTOP).await?;
    let url = server.url();
    let room = json!({ "origin": url.trim_end_matches('/'), "quotaSize": ROOM });
    browser.cdp("Storage.overrideQuotaForOrigin", room).await?;
    let address = begin(&browser, &url).await?;
    rate(&browser, 0, looks).await?;
    Ok((browser, address))
}

/// Takes all the room that is left, in smaller and smaller pieces.
async fn fill(browser: &Browser) -> WebDriverResult<()> {
    let full = browser
        .driver
        .execute_async(
            "const done = arguments[0];\n\
             const opening = indexedDB.open('filler');\n\
             opening.onupgradeneeded = () => opening.result.createObjectStore('s', { autoIncrement: true });\n\
             opening.onsuccess = () => {\n\
               const put = size => {\n\
                 if (size < 16) { opening.result.close(); return done('full'); }\n\
                 const bytes = crypto.getRandomValues(new Uint8Array(Math.min(size, 65536)));\n\
                 const piece = new Uint8Array(size); for (let at = 0; at < size; at += bytes.length) piece.set(bytes.subarray(0, size - at), at);\n\
                 const writing = opening.result.transaction('s', 'readwrite');\n\
                 writing.objectStore('s').put(piece);\n\
                 writing.oncomplete = () => put(size);\n\
                 writing.onabort = () => put(size >> 1);\n\
               };\n\
               put(4 << 20);\n\
             }",
            Vec::new(),
        )
        .await?;
    assert_eq!(full.json(), "full");
    Ok(())
}

#[tokio::test]
async fn during_a_rating() -> WebDriverResult<()> {
    let server = serve();
    let (browser, _) = little_room("full-rating", &server, 5).await?;
    let before = entries(&browser).await?;
    fill(&browser).await?;
    browser
        .driver
        .action_chain()
        .send_keys("1")
        .perform()
        .await?;
    browser.find(".pad__refused").await?;
    says(&browser, "This tablet's storage is full").await?;
    browser
        .until(
            "`Not kept` beside the progress",
            "return document.querySelector('#kept').textContent === 'Not kept'",
        )
        .await?;
    browser.picture("safe-full").await?;
    shows(&browser, 5).await?;
    assert_eq!(entries(&browser).await?, before);
    // Room again: the same look is kept now, and everything that was kept before is there.
    browser.script("indexedDB.deleteDatabase('filler')").await?;
    let began = Instant::now();
    while super::looks(&browser).await? == 5 && began.elapsed() < REMEMBERED {
        tokio::time::sleep(Duration::from_secs(1)).await;
        browser
            .driver
            .action_chain()
            .send_keys("1")
            .perform()
            .await?;
        tokio::time::sleep(Duration::from_millis(500)).await;
    }
    says_kept(&browser, 6).await?;
    rate(&browser, 6, 8).await?;
    browser.driver.refresh().await?;
    shows(&browser, 8).await?;
    browser.close().await
}

#[tokio::test]
async fn during_an_import() -> WebDriverResult<()> {
    let server = serve();
    let (browser, address) = little_room("full-import", &server, 3).await?;
    browser.press(".top__tab[href='#/shelf']").await?;
    browser.find_engine("Trial engine").await?;
    let before = entries(&browser).await?;
    fill(&browser).await?;
    open_file(&browser, "restore", &backup_of("full", 3, 40)).await?;
    says(&browser, "0 of 3 came in").await?;
    says(&browser, "This tablet's storage is full").await?;
    assert_eq!(
        entries(&browser).await?,
        before,
        "nothing of it came in half"
    );
    browser.driver.goto(&address).await?;
    browser.driver.refresh().await?;
    shows(&browser, 3).await?;
    browser.close().await
}

#[tokio::test]
async fn during_a_photo() -> WebDriverResult<()> {
    let server = serve();
    let (browser, _) = little_room("full-photo", &server, 3).await?;
    let before = entries(&browser).await?;
    fill(&browser).await?;
    let camera = written("full.jpg", &from_camera());
    pick(&browser, "#pad-photo", &[&camera]).await?;
    says(&browser, "full.jpg was not kept").await?;
    says(&browser, "This tablet's storage is full").await?;
    assert_eq!(entries(&browser).await?, before);
    assert_eq!(on_disk(&browser).await?, 0, "no bytes without an entry");
    // Room again: the same picture is kept now.
    browser.script("indexedDB.deleteDatabase('filler')").await?;
    let began = Instant::now();
    while on_disk(&browser).await? == 0 && began.elapsed() < REMEMBERED {
        pick(&browser, "#pad-photo", &[&camera]).await?;
        tokio::time::sleep(Duration::from_secs(2)).await;
    }
    says(&browser, "1 photo kept").await?;
    browser.driver.refresh().await?;
    shows(&browser, 3).await?;
    assert_eq!(entries(&browser).await?, before + 1);
    browser.close().await
}
