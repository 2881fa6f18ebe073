//! A second rater who rates blind: what the first said shows only once the second has looked.

use ringland_card::Depth;
use thirtyfour::prelude::*;

use crate::{
    bench::new_engine_of,
    browser::{Browser, SCREENS},
    serve,
};

/// The text of the cell of the leaf on the pad, and what the pad says of its score.
const HERE: &str = "const cell = document.querySelector('.cell[aria-current]');\n\
    return cell.textContent + '|' + (document.querySelector('.pad__now')?.textContent ?? 'hidden')";

async fn rate(browser: &Browser, grade: &str, done: usize) -> WebDriverResult<()> {
    browser
        .press(&format!(".pad [data-grade='{grade}']"))
        .await?;
    browser
        .until(
            "the look to be kept",
            &format!(
                "return document.querySelector('#progress').textContent.startsWith('{done} ')"
            ),
        )
        .await
}

#[tokio::test]
async fn what_the_first_rater_said_is_hidden_until_the_second_has_looked() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("blind", SCREENS[0]).await?;
    browser.driver.goto(server.url()).await?;
    new_engine_of(&browser, Depth::Short, "First").await?;
    browser.press(".pad .button--act").await?;
    // The first place of the plan that is graded.
    while browser
        .script("return document.querySelector('.pad [data-grade]') === null")
        .await?
        == true
    {
        browser.press(".pad__next").await?;
    }
    let leaf = browser
        .script("return document.querySelector('.cell[aria-current]').id")
        .await?;
    let leaf = leaf.as_str().unwrap_or_default().to_owned();
    rate(&browser, "medium", 1).await?;

    browser.press("#rater").await?;
    browser.press("#blind").await?;
    browser
        .find("#rater-name")
        .await?
        .send_keys("Second")
        .await?;
    browser.press_text("Rate as this person").await?;
    browser
        .until(
            "nothing looked at by the second",
            "return document.querySelector('#progress').textContent.startsWith('0 ')",
        )
        .await?;
    // Nor does the Card tell.
    browser.press(".top__tab[href^='#/card']").await?;
    browser.find(".card__hidden").await?;
    let told = browser
        .script("return document.querySelector('.card .score') !== null")
        .await?;
    assert_eq!(told, false, "the Card shows the first rater's grade");
    assert_eq!(browser.violations().await?, Vec::<String>::new());
    browser.picture("blind-card-1280x800").await?;
    browser.press(".card__hidden .button--act").await?;
    browser.press(".pad .button--act").await?;
    while browser
        .script("return document.querySelector('.cell[aria-current]').id")
        .await?
        != leaf.as_str()
    {
        browser.press(".pad__next").await?;
    }
    browser.find(".pad__hidden").await?;
    let here = browser.script(HERE).await?;
    assert_eq!(here, "?|hidden", "the first rater's grade shows");
    let label = browser
        .script("return document.querySelector('.cell[aria-current]').getAttribute('aria-label')")
        .await?;
    assert!(label.as_str().unwrap_or_default().contains("another rater"));
    browser.picture("blind-1280x800").await?;

    rate(&browser, "light", 1).await?;
    browser.press(&format!("#{leaf}")).await?;
    browser
        .until(
            "both raters on the pad",
            "const now = document.querySelector('.pad__raters')?.textContent ?? '';\n\
             return now.includes('First 5') && now.includes('Second 7.5')",
        )
        .await?;
    // Mean of 5 and 7.5, and the mark of two raters.
    let cell = browser
        .script("return document.querySelector('.cell[aria-current]').textContent")
        .await?;
    let text = cell.as_str().unwrap_or_default();
    assert!(text.starts_with("6.3") || text.starts_with("6.2"), "{text}");
    assert!(text.contains('²'), "{text}");
    // Nothing is hidden any more: the Card shows both.
    browser.press(".top__tab[href^='#/card']").await?;
    browser.find(".card .score").await?;
    browser.close().await
}
