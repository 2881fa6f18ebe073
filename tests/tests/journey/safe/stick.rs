//! Opened as a file: it says where its data lives and what moving the file does.

use thirtyfour::prelude::*;

use super::{begin, rate, says, shows};
use crate::{
    browser::{Browser, DESKTOP},
    dist,
};

#[tokio::test]
async fn from_a_stick() -> WebDriverResult<()> {
    let browser = Browser::open("safe-stick", DESKTOP).await?;
    let file = format!("file://{}", dist().join("ringland.html").display());
    let address = begin(&browser, &file).await?;
    rate(&browser, 0, 4).await?;
    browser.driver.goto(&address).await?;
    browser.driver.refresh().await?;
    shows(&browser, 4).await?;
    browser.press(".top__tab[href='#/shelf']").await?;
    browser.find("#in-a-file").await?;
    says(&browser, "in this browser on this tablet").await?;
    says(&browser, "moved or renamed").await?;
    browser.close().await
}
