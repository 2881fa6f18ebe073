//! The app updated while a pad is open: it says so, and waits.

use std::{env, fs, path::PathBuf};

use thirtyfour::prelude::*;
use xtask::server::Server;

use super::{begin, looks, rate, says, says_kept, shows};
use crate::{
    browser::{Browser, DESKTOP, SCREENS},
    dist,
};

/// The built site in a folder of its own, so that a newer one can take its place.
fn copy() -> PathBuf {
    let copy = env::temp_dir().join(format!("ringland-newer-{}", std::process::id()));
    let _old = fs::remove_dir_all(&copy);
    fs::create_dir_all(&copy).expect("a folder");
    for file in fs::read_dir(dist()).expect("the built site").flatten() {
        fs::copy(file.path(), copy.join(file.file_name())).expect("a copy");
    }
    copy
}

/// A newer version in another tab lays the storage out anew: this one says that it keeps nothing more.
#[tokio::test]
async fn in_another_tab() -> WebDriverResult<()> {
    let server = Server::start(&dist()).expect("the site is served");
    let browser = Browser::open("newer", DESKTOP).await?;
    begin(&browser, &server.url()).await?;
    rate(&browser, 0, 3).await?;
    let newer = browser
        .driver
        .execute_async(
            "const done = arguments[0];\n\
             const opening = indexedDB.open('ringland', 99);\n\
             opening.onsuccess = () => { opening.result.close(); done('open'); }",
            Vec::new(),
        )
        .await?;
    assert_eq!(newer.json(), "open", "it does not stand in the way");
    browser
        .driver
        .action_chain()
        .send_keys("1")
        .perform()
        .await?;
    says(&browser, "This tab has lost its storage").await?;
    assert_eq!(looks(&browser).await?, 3);
    browser.close().await
}

#[tokio::test]
async fn while_a_pad_is_open() -> WebDriverResult<()> {
    let site = copy();
    let server = Server::start(&site).expect("the site is served");
    let browser = Browser::open("update", DESKTOP).await?;
    begin(&browser, &server.url()).await?;
    rate(&browser, 0, 3).await?;
    browser
        .until(
            "the service worker",
            "return navigator.serviceWorker.controller !== null",
        )
        .await?;
    let bar = browser
        .script("return document.querySelector('.update') !== null")
        .await?;
    assert_eq!(bar, false, "the first version is no update");

    let worker = fs::read_to_string(site.join("sw.js")).expect("the worker");
    let newer = worker.replacen("const VERSION = \"", "const VERSION = \"newer", 1);
    assert_ne!(newer, worker);
    fs::write(site.join("sw.js"), newer).expect("a newer worker");
    browser
        .script("navigator.serviceWorker.getRegistration().then(found => found.update())")
        .await?;
    browser.find("#update-now").await?;
    browser.picture("safe-update").await?;
    for screen in SCREENS {
        browser
            .driver
            .set_window_rect(0, 0, screen.width, screen.height)
            .await?;
        for theme in ["light", "dark"] {
            browser
                .script(&format!(
                    "document.documentElement.dataset.theme = '{theme}'"
                ))
                .await?;
            browser
                .picture(&format!("safe-update-{}-{theme}", screen.name))
                .await?;
        }
    }
    assert_eq!(browser.violations().await?, Vec::<String>::new());
    // It waits: the pad is open, and what is rated is kept.
    tokio::time::sleep(std::time::Duration::from_millis(500)).await;
    assert_eq!(looks(&browser).await?, 3);
    rate(&browser, 3, 6).await?;
    says_kept(&browser, 6).await?;
    browser
        .driver
        .action_chain()
        .send_keys("r")
        .perform()
        .await?;
    browser
        .find(".remark__text")
        .await?
        .send_keys("half")
        .await?;

    browser.script("window.before = true").await?;
    browser.press("#update-now").await?;
    browser
        .until("the new version", "return window.before === undefined")
        .await?;
    shows(&browser, 6).await?;
    browser.press(".pad .button--act").await?;
    browser
        .driver
        .action_chain()
        .send_keys("r")
        .perform()
        .await?;
    let text = browser.find(".remark__text").await?.prop("value").await?;
    assert_eq!(text.as_deref(), Some("half"));
    let bar = browser
        .script("return document.querySelector('.update') !== null")
        .await?;
    assert_eq!(bar, false, "it is the new version now");
    browser.close().await
}
