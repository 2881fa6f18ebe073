//! Nothing is lost: each of these first reads on the screen that something is kept, then does what a
//! bad day does, and then looks for what was kept.

mod altered;
mod backup;
mod cleared;
mod clock;
mod damaged;
mod full;
mod import;
mod killed;
mod reload;
mod stick;
mod tabs;
mod update;

use ringland_card::{Depth, Layout, builtin};
use serde_json::json;
use thirtyfour::prelude::*;

use crate::{
    bench::{keys, new_engine_of},
    browser::Browser,
};

/// Makes an engine of the short plan and opens its pad; gives the address of its Bench.
async fn begin(browser: &Browser, url: &str) -> WebDriverResult<String> {
    browser.driver.goto(url).await?;
    new_engine_of(browser, Depth::Short, "S. Keeper").await?;
    browser.press(".pad .button--act").await?;
    let hash = browser.script("return location.hash").await?;
    Ok(format!("{url}{}", hash.as_str().unwrap_or_default()))
}

/// What to type for each leaf of the short plan.
fn short_keys() -> Vec<String> {
    let plan = builtin(&Layout::inline_six(), Depth::Short).expect("the built-in plan");
    keys(&plan).into_iter().map(|(_, keys)| keys).collect()
}

/// Rates on from one count of looks to another; the screen says of each that it is kept.
async fn rate(browser: &Browser, from: usize, to: usize) -> WebDriverResult<()> {
    for (n, typed) in short_keys().iter().enumerate().take(to).skip(from) {
        browser
            .driver
            .action_chain()
            .send_keys(typed)
            .perform()
            .await?;
        says_kept(browser, n + 1).await?;
    }
    Ok(())
}

/// Waits until the screen says that so many looks are kept.
async fn says_kept(browser: &Browser, looks: usize) -> WebDriverResult<()> {
    let script = format!(
        "return document.querySelector('#progress')?.textContent.startsWith('{looks} of ')\n\
           && document.querySelector('#kept').textContent.startsWith('Kept on this tablet')"
    );
    browser
        .until(&format!("{looks} looks to be kept"), &script)
        .await
}

/// Waits until the Bench shows so many looks.
async fn shows(browser: &Browser, looks: usize) -> WebDriverResult<()> {
    let script = format!(
        "return document.querySelector('#progress')?.textContent.startsWith('{looks} of ') ?? false"
    );
    browser
        .until(&format!("{looks} looks on the Bench"), &script)
        .await
}

/// How many looks the Bench shows, once it shows any.
async fn looks(browser: &Browser) -> WebDriverResult<usize> {
    browser.find("#progress").await?;
    let count = browser
        .script("return Number(document.querySelector('#progress').textContent.match(/[0-9]+/)[0])")
        .await?;
    Ok(usize::try_from(count.as_u64().unwrap_or_default()).unwrap_or_default())
}

/// Presses a digit so many times from within the page, as quick as the page takes it or with a pause.
async fn press_in_page(browser: &Browser, times: usize, pause_ms: usize) -> WebDriverResult<()> {
    let script = format!(
        "let left = {times};\n\
         const press = () => {{\n\
           if (left-- <= 0) return;\n\
           document.body.dispatchEvent(new KeyboardEvent('keydown', {{ key: '1', code: 'Digit1', bubbles: true, cancelable: true }}));\n\
           setTimeout(press, {pause_ms});\n\
         }};\n\
         setTimeout(press, 0)"
    );
    browser.script(&script).await.map(|_| ())
}

/// Waits until the page says something.
async fn says(browser: &Browser, text: &str) -> WebDriverResult<()> {
    let script = format!("return document.body.innerText.includes({})", json!(text));
    browser.until(text, &script).await
}

/// Does something with the page's own database; the script has it as `db` and calls `done`.
pub(crate) async fn in_database(
    browser: &Browser,
    script: &str,
) -> WebDriverResult<serde_json::Value> {
    let script = format!(
        "const done = arguments[0];\n\
         const opening = indexedDB.open('ringland');\n\
         opening.onerror = () => done('no database');\n\
         opening.onsuccess = () => {{ const db = opening.result;\n{script}\n}}"
    );
    let returned = browser.driver.execute_async(&script, Vec::new()).await?;
    Ok(returned.json().clone())
}

/// How many entries the database has.
async fn entries(browser: &Browser) -> WebDriverResult<u64> {
    let count = in_database(
        browser,
        "const ask = db.transaction('entries').objectStore('entries').count();\n\
         ask.onsuccess = () => { db.close(); done(ask.result); }",
    )
    .await?;
    Ok(count.as_u64().expect("a count"))
}

/// Gives a file to the field of that id.
async fn open_file(browser: &Browser, field: &str, path: &std::path::Path) -> WebDriverResult<()> {
    let input = browser.find(&format!("#{field}")).await?;
    input.send_keys(path.to_string_lossy().to_string()).await
}
