//! A card is sealed on the tablet; what comes later is told apart, and another key seals on another tablet.

use std::fs;

use ringland_card::{
    Card,
    file::read,
    seal::{SealKey, seals},
};
use suite::demo;
use thirtyfour::prelude::*;

use crate::{
    browser::{Browser, SCREENS},
    photos::{at_the_bench, pick, written},
    plans::says,
    screens::{THEMES, look},
};

async fn saved(browser: &Browser) -> WebDriverResult<Card> {
    browser.press_text("Save card as a file").await?;
    let file = browser.saved(".card.json").await;
    let opened = read(&fs::read(file).expect("the saved card")).expect("a card");
    assert!(opened.digest_matches);
    Ok(opened.card)
}

#[tokio::test]
async fn a_card_is_sealed_and_what_comes_later_is_told_apart() -> WebDriverResult<()> {
    let cards = demo::cards().expect("the demo engines");
    let (_, card) = cards.first().expect("an engine");
    let (_server, browser) = at_the_bench("seal", SCREENS[0], card).await?;
    let here = format!("location.hash = '#/card/{}'", card.id());
    browser.script(&here).await?;
    browser.press("#seal").await?;
    browser.find("#seal-name").await?;
    let name = browser
        .script("return document.querySelector('#seal-name').value")
        .await?;
    assert_eq!(name, "P. Lens");
    browser.picture("seal-new").await?;
    browser.press("#seal-make").await?;
    says(&browser, "#sealed", "Sealed. Save the file now").await?;
    says(&browser, ".seals", "Sealed by P. Lens").await?;
    says(
        &browser,
        ".seals",
        "Holds: nothing that it covers was changed",
    )
    .await?;
    says(&browser, ".seals", "Nothing was entered after it").await?;
    let found = look(&browser, "seal", &THEMES).await?;
    assert!(found.is_empty(), "{}", found.join("\n"));

    browser.press("#seal-save-key").await?;
    let file = browser.saved(".seal-key.json").await;
    let key = SealKey::read(&fs::read(file).expect("the saved key")).expect("a key");
    assert_eq!(key.name(), "P. Lens");
    let first = saved(&browser).await?;
    let found = seals(&first);
    assert_eq!(found.len(), 1);
    assert_eq!((found[0].fault, found[0].after), (None, 0));
    assert_eq!(found[0].seal.key, key.public());
    assert_eq!(found[0].seal.entries, card.len() as u64);

    // One more look comes after it.
    browser
        .script(&format!("location.hash = '#/bench/{}/0'", card.id()))
        .await?;
    browser.press("#keep-areas").await?;
    says(&browser, "#kept", "Kept").await?;
    browser.script(&here).await?;
    says(&browser, ".seals", "1 entry was made after it").await?;

    // The key of somebody else takes the place of this tablet's.
    let other = SealKey::from_seed("N. Rook", *b"0123456789abcdef0123456789ABCDEF").expect("a key");
    let no_key = written("no.seal-key.json", b"{}");
    let its_file = written("rook.seal-key.json", other.write().as_bytes());
    browser.press("#seal").await?;
    pick(&browser, "#seal-take-key", &[&no_key]).await?;
    says(&browser, ".seal", "This is not the file of a key").await?;
    pick(&browser, "#seal-take-key", &[&its_file]).await?;
    says(&browser, ".seal", "With the key of N. Rook").await?;
    browser.press("#seal-now").await?;
    says(&browser, ".seals", "Sealed by N. Rook").await?;
    let second = saved(&browser).await?;
    let found: Vec<_> = seals(&second)
        .into_iter()
        .map(|read| (read.seal.name, read.fault, read.after))
        .collect();
    assert_eq!(
        found,
        [
            ("P. Lens".to_owned(), None, 2),
            ("N. Rook".to_owned(), None, 0)
        ]
    );
    browser.close().await
}
