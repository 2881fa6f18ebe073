//! The clock moved back a year, and two tablets with clocks apart.

use ringland_card::{
    At, Body, Card, CardId, CharacteristicId, Depth, DeviceId, Entry, EntryId, Grade, Layout, Look,
    PositionId, Timestamp, builtin, file,
};
use thirtyfour::prelude::*;

use super::{begin, rate, says_kept, shows};
use crate::{
    browser::{Browser, DESKTOP},
    serve,
};

#[tokio::test]
async fn moved_back_a_year() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("clock", DESKTOP).await?;
    let address = begin(&browser, &server.url()).await?;
    rate(&browser, 0, 4).await?;
    let grade = "return document.querySelector(\".pad [data-grade][aria-pressed='true']\")?.dataset.grade ?? ''";
    browser
        .script("const now = Date.now; Date.now = () => now() - 365 * 24 * 60 * 60 * 1000")
        .await?;
    // Back to the last look, and otherwise now; then on.
    browser.press_text("Previous").await?;
    browser
        .driver
        .action_chain()
        .send_keys("4")
        .perform()
        .await?;
    says_kept(&browser, 4).await?;
    rate(&browser, 4, 6).await?;
    browser.driver.goto(&address).await?;
    browser.driver.refresh().await?;
    shows(&browser, 6).await?;
    // The later look stands, whatever the clock says of it.
    browser.press(".pad .button--act").await?;
    for _ in 0..3 {
        browser.press_text("Previous").await?;
    }
    assert_eq!(browser.script(grade).await?, "heavy");

    // The Shelf and its bin go on as well.
    browser.press(".top__tab[href='#/shelf']").await?;
    browser.find(".engine__acts").await?;
    browser.close().await
}

fn look(card: &Card, tablet: u8, time: &str, grade: Grade) -> Entry {
    let at = At {
        position: PositionId::new("cyl1/lobe/exhaust").expect("a position"),
        characteristic: CharacteristicId::new("wear").expect("a look"),
    };
    let time: Timestamp = time.parse().expect("a time");
    let ms = u64::try_from(time.as_millisecond()).expect("after 1970");
    let body = Body::Rating {
        at,
        look: Look::Grade(grade),
    };
    let (id, device) = (EntryId::v7(ms, [tablet; 10]), DeviceId::v7(1, [tablet; 10]));
    Entry::new(id, device, card.next_lamport(), time, "one", body)
}

/// One rater on two tablets of which one is a year behind: what was said last, knowing the other,
/// stands, and the union is the same whichever file is opened on which.
#[test]
fn two_tablets_with_clocks_apart() {
    let plan = builtin(&Layout::inline_six(), Depth::Short).expect("the built-in plan");
    let mut right = Card::new(CardId::v7(1, [1; 10]), plan).expect("a card");
    let first = look(&right, 1, "2026-11-24T12:00:00Z", Grade::Light);
    right.append(first.clone()).expect("the first look");
    let mut behind = right.clone();
    let later = look(&behind, 2, "2025-11-24T12:05:00Z", Grade::Heavy).superseding(first.id);
    behind
        .append(later.clone())
        .expect("a correction with an earlier time");
    let merged = right.merge(&behind).expect("one card");
    assert_eq!(merged, behind.merge(&right).expect("one card"));
    let bytes = file::write(&merged);
    let back = file::read(bytes.as_bytes()).expect("a card").card;
    let standing = back.standing();
    let looks: Vec<_> = standing
        .looks
        .iter()
        .flatten()
        .map(|entry| entry.id)
        .collect();
    assert_eq!(looks, [later.id]);
    assert_eq!(back.next_lamport(), 3);
}
