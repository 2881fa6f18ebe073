//! Plans of one's own in the backup, and files that find their place wherever they are opened.

use std::path::{Path, PathBuf};

use ringland_card::{
    Card, CardId, Depth, Layout, builtin,
    file::{self, Origin},
};
use serde_json::json;
use thirtyfour::prelude::*;

use crate::{
    browser::{Browser, DESKTOP},
    plan_rules::derive,
    plans::{says, type_into},
    serve,
};

const ONE_PLAN: &str = "return document.querySelectorAll('.plan-list__one').length === 1";

async fn open_file(browser: &Browser, input: &str, path: &Path) -> WebDriverResult<()> {
    let input = browser.find(input).await?;
    input.send_keys(path.to_string_lossy()).await
}

fn card_file() -> PathBuf {
    let plan = builtin(&Layout::inline_six(), Depth::Short).expect("the built-in plan");
    let card = Card::new(CardId::v7(1, [77; 10]), plan).expect("a card");
    let path = std::env::temp_dir().join(format!("ringland-pl-{}.card.json", std::process::id()));
    std::fs::write(&path, file::write(&card)).expect("a file");
    path
}

#[tokio::test]
async fn plans_come_back_from_a_backup_and_files_find_their_place() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("plan-backups", DESKTOP).await?;
    derive(&browser, &server.url(), "Kept plan").await?;
    browser.press("[data-part=foot] [data-act=save]").await?;
    let plan = browser.saved(".plan.json").await;

    browser.press("a[href='#/shelf']").await?;
    browser.press_text("Back up everything").await?;
    says(&browser, ".notice", "and 1 plan of your own saved").await?;
    let backup = browser.saved_as("ringland-backup-", ".json").await;
    in_the_file(&backup);
    restored(&browser, &backup).await?;
    at_the_shelf(&browser, &plan).await?;
    at_the_plans(&browser).await?;
    browser.close().await
}

fn in_the_file(backup: &Path) {
    let bytes = std::fs::read(backup).expect("the backup");
    let mut opened = file::read_backup(&bytes).expect("a backup");
    assert!(opened.is_whole());
    let kept = opened.next_plan().expect("a plan").expect("a sound one");
    assert_eq!(kept.file.plan.name, "Kept plan");
    let parent = builtin(&Layout::inline_six(), Depth::Full).expect("the built-in plan");
    assert_eq!(kept.file.derived_from, Some(Origin::of(&parent)));
    assert_eq!(kept.parent, Some(parent));
    assert!(opened.next_plan().is_none());
}

/// Deleted for good, the plan is back from the backup; from the same backup again nothing changes; and
/// one that was changed since stands beside it.
async fn restored(browser: &Browser, backup: &Path) -> WebDriverResult<()> {
    browser.press("a[href='#/plans']").await?;
    browser.press(".plan-list [data-act=delete]").await?;
    says(browser, ".plans", "No plan of your own yet").await?;
    browser.driver.refresh().await?;
    browser.press("a[href='#/shelf']").await?;
    open_file(browser, "#restore", backup).await?;
    says(browser, "#news", "Kept plan, version 1 is among your plans").await?;
    browser.press("#news a[href^='#/plan/']").await?;
    says(
        browser,
        "[data-part=differs]",
        "name Ringland built-in → Kept plan",
    )
    .await?;

    browser.press("a[href='#/shelf']").await?;
    open_file(browser, "#restore", backup).await?;
    says(browser, "#news", "is among your plans already").await?;
    browser.press("#news a[href^='#/plan/']").await?;
    says(browser, "#plan-title", "Kept plan").await?;
    type_into(browser, "f:u_bias:plan", "0.4").await?;
    says(browser, "[data-part=differs]", "0.4").await?;
    browser.press("a[href='#/shelf']").await?;
    open_file(browser, "#restore", backup).await?;
    says(
        browser,
        "#news",
        "with other content already: both are kept",
    )
    .await?;
    browser.picture("plan-restored").await?;
    browser.press("a[href='#/plans']").await?;
    browser
        .until(
            "both plans",
            "return document.querySelectorAll('.plan-list__one').length === 2",
        )
        .await?;
    for _ in 0..2 {
        browser.press(".plan-list [data-act=delete]").await?;
        browser.press_text("Close").await?;
    }
    says(browser, ".plans", "No plan of your own yet").await
}

/// A plan's file opened on the Shelf is taken in, with the way to it.
async fn at_the_shelf(browser: &Browser, plan: &Path) -> WebDriverResult<()> {
    browser.press("a[href='#/shelf']").await?;
    open_file(browser, "#open-files", plan).await?;
    says(browser, "#news", "Kept plan, version 1 is among your plans").await?;
    browser.press("#news a[href^='#/plan/']").await?;
    says(browser, "#plan-title", "Kept plan").await?;
    // One that is none is refused with what is wrong in it.
    let text = std::fs::read_to_string(plan).expect("the plan");
    let wrong = plan.with_extension("wrong.json");
    std::fs::write(&wrong, text.replacen("\"u_bias\":", "\"u_bias\":9", 1)).expect("a file");
    browser.press("a[href='#/shelf']").await?;
    open_file(browser, "#open-files", &wrong).await?;
    says(browser, "#news", "wrong.json").await?;
    browser.press("a[href='#/plans']").await?;
    browser.until("one plan", ONE_PLAN).await
}

/// A card that is dropped beside the plans is taken in, with the way to it.
async fn at_the_plans(browser: &Browser) -> WebDriverResult<()> {
    let path = card_file();
    let text = std::fs::read_to_string(&path).expect("the card");
    let drop = format!(
        "const data = new DataTransfer();\n\
         data.items.add(new File([{}], 'dropped.card.json'));\n\
         const event = new DragEvent('drop', {{ dataTransfer: data, bubbles: true, cancelable: true }});\n\
         return !window.dispatchEvent(event)",
        json!(text)
    );
    assert_eq!(browser.script(&drop).await?, true, "the page stays");
    browser.find("#news a[href^='#/bench/']").await?;
    browser.picture("plan-card-dropped").await?;
    let found = browser.violations().await?;
    assert!(found.is_empty(), "{}", found.join("\n"));
    browser.press("#news a[href^='#/bench/']").await?;
    browser.find(".bench").await?;
    std::fs::remove_file(&path).expect("the file");
    Ok(())
}
