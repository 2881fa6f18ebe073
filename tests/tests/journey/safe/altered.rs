//! A file altered after it was written: it opens to be looked at, and whoever saves it from the Card does
//! not make a sound one of it.

use ringland_card::file;
use suite::demo;
use thirtyfour::prelude::*;

use super::open_file;
use crate::{
    browser::{Browser, DESKTOP},
    serve,
};

#[tokio::test]
async fn stays_known_as_altered_when_saved() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("altered", DESKTOP).await?;
    browser.driver.goto(server.url()).await?;
    browser.find(".engine__acts").await?;
    let (name, card) = &demo::cards().expect("the demo engines")[0];
    let altered = file::write(card).replace(&card.id().to_string(), OTHER);
    let path = std::env::temp_dir().join(format!("ringland-altered-{}.json", std::process::id()));
    std::fs::write(&path, altered).expect("a file");
    open_file(&browser, "open-files", &path).await?;
    browser.find(".engine__wrong").await?;
    browser
        .script(&format!("location.hash = '#/card/{OTHER}'"))
        .await?;
    browser.find(".card__altered").await?;
    browser.press(".head__acts .button").await?;
    let saved = browser.saved(".card.json").await;
    tokio::time::sleep(std::time::Duration::from_millis(300)).await;
    let saved = std::fs::read(saved).expect("the saved file");
    let opened = file::read(&saved).expect("a card");
    assert_eq!(opened.card.len(), card.len(), "{name}");
    assert!(
        !opened.digest_matches,
        "an altered card was saved as a sound one"
    );
    let _left = std::fs::remove_file(path);
    browser.close().await
}

/// The altered file is one of a card that is not on the tablet.
const OTHER: &str = "01890000-0000-7000-8000-000000000009";
