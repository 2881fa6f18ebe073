//! A tab killed in mid-write, and the whole browser.

use std::{env, fs, path::Path, process::Command, time::Duration};

use serde_json::json;
use thirtyfour::prelude::*;

use super::{begin, in_database, looks, press_in_page, rate};
use crate::{
    browser::{Browser, DESKTOP, Kind},
    photos::{from_camera, pick, written},
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

/// Writes down how many photos the pad shows, at the moment it shows them.
const WRITE_DOWN_PHOTOS: &str = "new MutationObserver(() => {\n\
      const said = document.querySelectorAll('.pad .photo--small').length;\n\
      if (said) localStorage.setItem('photos', said);\n\
    }).observe(document.body, { subtree: true, childList: true, characterData: true })";

/// How many photos the entries name, and how many of those have no bytes on the disk.
const NAMED: &str = "const read = db.transaction(['entries', 'photos']);\n\
    const entries = read.objectStore('entries').getAll(), keys = read.objectStore('photos').getAllKeys();\n\
    read.oncomplete = () => { db.close();\n\
      const named = entries.result.map(e => JSON.parse(e.text).body).filter(b => b.kind === 'photo').map(b => b.photo.digest);\n\
      const here = new Set(keys.result.map(([, digest]) => digest));\n\
      done([named.length, named.filter(digest => !here.has(digest)).length]); }";

#[tokio::test]
async fn a_tab_killed_while_photos_are_kept() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("killed-photos", DESKTOP).await?;
    let address = begin(&browser, &server.url()).await?;
    rate(&browser, 0, 2).await?;
    let doomed = browser.driver.window().await?;
    let other = browser.driver.new_tab().await?;
    browser.driver.switch_to_window(doomed).await?;
    browser.script(WRITE_DOWN_PHOTOS).await?;
    // Each a picture of its own: what stands after its end makes another.
    let camera = from_camera();
    let shots: Vec<_> = (0..12_u8)
        .map(|n| written(&format!("shot-{n}.jpg"), &[&camera[..], &[n]].concat()))
        .collect();
    let shots: Vec<&Path> = shots.iter().map(std::path::PathBuf::as_path).collect();
    browser.press("#pad-photos").await?;
    pick(&browser, "#photo-files", &shots).await?;
    browser
        .until(
            "a photo to be kept",
            "return Number(localStorage.getItem('photos')) > 0",
        )
        .await?;
    let crash = browser.cdp("Page.crash", json!({}));
    let _gone = tokio::time::timeout(Duration::from_secs(2), crash).await;
    browser.driver.switch_to_window(other).await?;
    browser.driver.goto(&address).await?;
    assert_eq!(looks(&browser).await?, 2);
    let said = browser
        .script("return Number(localStorage.getItem('photos'))")
        .await?;
    let counted = in_database(&browser, NAMED).await?;
    println!("the pad showed {said} photos; {counted} are named and without bytes");
    assert!(counted[0].as_u64() >= said.as_u64() && said.as_u64() > Some(0));
    assert_eq!(counted[1], 0, "an entry without its photo");
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
