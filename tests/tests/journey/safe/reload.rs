//! Reload in mid-entry: what was kept is there, and what was half typed, too.

use thirtyfour::prelude::*;

use super::{begin, rate, says, shows};
use crate::{
    browser::{Browser, DESKTOP},
    serve,
};

async fn value(browser: &Browser, css: &str) -> WebDriverResult<String> {
    let element = browser.find(css).await?;
    Ok(element.prop("value").await?.unwrap_or_default())
}

#[tokio::test]
async fn in_a_remark_and_in_the_facts() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("reload", DESKTOP).await?;
    let address = begin(&browser, &server.url()).await?;
    rate(&browser, 0, 4).await?;
    browser
        .driver
        .action_chain()
        .send_keys("r")
        .perform()
        .await?;
    browser
        .find(".remark__text")
        .await?
        .send_keys("scored near the")
        .await?;
    browser.driver.refresh().await?;
    shows(&browser, 4).await?;
    browser.press(".pad .button--act").await?;
    browser
        .driver
        .action_chain()
        .send_keys("r")
        .perform()
        .await?;
    assert_eq!(value(&browser, ".remark__text").await?, "scored near the");
    browser
        .find(".remark__text")
        .await?
        .send_keys(" oil hole")
        .await?;
    browser.press(".remark .button--act").await?;
    browser.find(".pad__acts").await?;
    browser.driver.refresh().await?;
    shows(&browser, 4).await?;
    browser.press(".pad .button--act").await?;
    browser
        .driver
        .action_chain()
        .send_keys("r")
        .perform()
        .await?;
    says(&browser, "scored near the oil hole").await?;
    assert_eq!(value(&browser, ".remark__text").await?, "");

    browser
        .driver
        .goto(address.replace("bench", "facts"))
        .await?;
    browser
        .find("#fact-fleet")
        .await?
        .send_keys("Fell Haulage")
        .await?;
    browser.driver.refresh().await?;
    says(&browser, "It is not kept yet").await?;
    assert_eq!(value(&browser, "#fact-fleet").await?, "Fell Haulage");
    browser.press_text("Save the facts").await?;
    says(&browser, "Facts kept").await?;
    browser.driver.refresh().await?;
    assert_eq!(value(&browser, "#fact-fleet").await?, "Fell Haulage");
    let back = browser
        .script("return document.body.innerText.includes('not kept yet')")
        .await?;
    assert_eq!(back, false);
    browser.close().await
}

#[tokio::test]
async fn in_a_new_engine() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("reload-new", DESKTOP).await?;
    browser
        .driver
        .goto(&format!("{}#/new", server.url()))
        .await?;
    browser
        .find("#fact-name")
        .await?
        .send_keys("Half an engine")
        .await?;
    browser.press(".layout__start:nth-child(2)").await?;
    browser.driver.refresh().await?;
    assert_eq!(value(&browser, "#fact-name").await?, "Half an engine");
    let chosen =
        "return document.querySelector(\".layout__start:nth-child(2)\").ariaPressed === 'true'";
    browser.until("the layout that was chosen", chosen).await?;
    browser
        .find("#rater-name")
        .await?
        .send_keys("R. Loader")
        .await?;
    browser.press_text("Put it on the bench").await?;
    browser.find(".bench").await?;
    browser
        .driver
        .goto(&format!("{}#/new", server.url()))
        .await?;
    assert_eq!(
        value(&browser, "#fact-name").await?,
        "",
        "the draft went with the keeping"
    );
    browser.close().await
}
