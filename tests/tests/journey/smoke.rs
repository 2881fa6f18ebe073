//! The site starts.

use thirtyfour::prelude::*;

use crate::{
    browser::{Browser, DESKTOP},
    serve,
};

#[tokio::test]
async fn the_site_starts_with_the_demo_engines_on_the_shelf() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("smoke", DESKTOP).await?;
    browser.driver.goto(server.url()).await?;
    browser
        .until(
            "the demo engines",
            "return document.body.innerText.includes('Tarn')",
        )
        .await?;
    browser.close().await?;
    Ok(())
}
