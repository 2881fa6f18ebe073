//! A tab killed in mid-write, and the whole browser.

use std::{env, fs, path::Path, process::Command, time::Duration};

use serde_json::json;
use thirtyfour::prelude::*;

use super::{begin, looks, press_in_page, rate};
use crate::{
    browser::{Browser, DESKTOP, Kind},
    serve,
};

/// Writes down what the screen says is kept, at the moment it says so, where a killed tab leaves it.
const WRITE_DOWN: &str = "new MutationObserver(() => {\n\
      const said = document.querySelector('#kept')?.textContent.startsWith('Kept')\n\
        && document.querySelector('#progress').textContent.match(/[0-9]+/)[0];\n\
      if (said) localStorage.setItem('said', said);\n\
    }).observe(document.body, { subtree: true, childList: true, characterData: true })";

#[tokio::test]
async fn a_tab_killed_in_mid_write() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("killed-tab", DESKTOP).await?;
    let address = begin(&browser, &server.url()).await?;
    rate(&browser, 0, 5).await?;
    let doomed = browser.driver.window().await?;
    let other = browser.driver.new_tab().await?;
    browser.driver.switch_to_window(doomed).await?;
    browser.script(WRITE_DOWN).await?;
    press_in_page(&browser, 60, 1).await?;
    tokio::time::sleep(Duration::from_millis(150)).await;
    // The driver waits in vain for an answer of a page that is gone.
    let crash = browser.cdp("Page.crash", json!({}));
    let _gone = tokio::time::timeout(Duration::from_secs(2), crash).await;
    browser.driver.switch_to_window(other).await?;
    browser.driver.goto(&address).await?;
    let kept = looks(&browser).await?;
    let said = browser
        .script("return Number(localStorage.getItem('said'))")
        .await?;
    let said = usize::try_from(said.as_u64().unwrap_or_default()).unwrap_or_default();
    println!("the screen said {said} were kept; {kept} were");
    assert!((6..60).contains(&said), "killed in the middle, at {said}");
    assert!(kept >= said, "{said} said, {kept} kept");
    browser.close().await
}

#[tokio::test]
async fn a_browser_killed_in_mid_write() -> WebDriverResult<()> {
    let server = serve();
    let home = env::temp_dir().join(format!("ringland-killed-{}", std::process::id()));
    let _old = fs::remove_dir_all(&home);
    let browser = Browser::open_at(Kind::Chromium, &home, DESKTOP).await?;
    let address = begin(&browser, &server.url()).await?;
    rate(&browser, 0, 5).await?;
    press_in_page(&browser, 80, 2).await?;
    let mut said = 0;
    while said < 12 {
        said = looks(&browser).await?;
    }
    kill_all_of(&home);
    drop(browser);

    let browser = Browser::open_at(Kind::Chromium, &home, DESKTOP).await?;
    browser.driver.goto(&address).await?;
    let kept = looks(&browser).await?;
    println!("the screen said {said} were kept; {kept} were");
    assert!(kept >= said, "{said} said, {kept} kept");
    browser.close().await
}

/// Kills the processes of the browser that has its profile there, each by its id.
fn kill_all_of(home: &Path) {
    let profile = home.join("profile");
    let profile = profile.to_string_lossy();
    for process in fs::read_dir("/proc").expect("the processes").flatten() {
        let id = process.file_name().to_string_lossy().into_owned();
        let command = fs::read(process.path().join("cmdline")).unwrap_or_default();
        if id.parse::<u32>().is_ok() && String::from_utf8_lossy(&command).contains(&*profile) {
            // One that has gone with its parent is gone.
            let _killed = Command::new("kill").args(["-9", &id]).status();
        }
    }
}
