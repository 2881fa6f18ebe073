//! What the Shelf says and offers when there is little to show: the first start, while it is being read,
//! with no engine, with no storage, and with records that are damaged. In each language, and open to
//! everybody.

use serde_json::json;
use thirtyfour::prelude::*;

use crate::{
    browser::{Browser, SCREENS},
    safe::in_database,
    serve,
    spanish::speaks,
};

/// Puts a script into every page before its own.
async fn before_the_page(browser: &Browser, script: &str) -> WebDriverResult<()> {
    let source = json!({ "source": script });
    browser
        .cdp("Page.addScriptToEvaluateOnNewDocument", source)
        .await
        .map(|_| ())
}

/// A text that the page shows, and what is to be pressed then, both in each language.
struct State {
    says: [&'static str; 2],
    offers: [&'static [&'static str]; 2],
}

/// Holds the screen against a state, first in English and then in Spanish.
async fn shows(browser: &Browser, name: &str, state: &State) -> WebDriverResult<()> {
    for (language, tag) in ["en", "es"].into_iter().enumerate() {
        speaks(browser, tag, state.says[language]).await?;
        let offered = browser
            .script(
                "return [...document.querySelectorAll('#main a, #main button, #main label')]\n\
                 .filter(e => e.offsetParent !== null && !e.disabled).map(e => e.textContent.trim())",
            )
            .await?;
        let offered: Vec<String> = serde_json::from_value(offered).unwrap_or_default();
        for wanted in state.offers[language] {
            assert!(
                offered.iter().any(|text| text == wanted),
                "{name}: `{wanted}` is not offered in {tag}: {offered:?}"
            );
        }
        assert_eq!(
            browser.violations().await?,
            Vec::<String>::new(),
            "{name} in {tag}"
        );
        browser.picture(&format!("state-{name}-{tag}")).await?;
        browser.press(".top__language").await?;
    }
    Ok(())
}

#[tokio::test]
async fn the_first_start() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("state-first", SCREENS[0]).await?;
    browser.driver.goto(server.url()).await?;
    browser.find(".engine__acts").await?;
    let first = State {
        says: ["The demo engines are invented", "son inventados"],
        offers: [
            &["New engine…", "Open a file…", "Rate", "Back up everything"],
            &[
                "Motor nuevo…",
                "Abrir un archivo…",
                "Evaluar",
                "Hacer copia de seguridad de todo",
            ],
        ],
    };
    shows(&browser, "first", &first).await?;
    browser.close().await
}

#[tokio::test]
async fn while_it_is_being_read() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("state-loading", SCREENS[1]).await?;
    // The demo engines of the first start never come, as over a bad line.
    before_the_page(
        &browser,
        "const get = window.fetch;\n\
         window.fetch = (what, ...rest) => String(what).includes('demo-') ? new Promise(() => {}) : get(what, ...rest)",
    )
    .await?;
    browser.driver.goto(server.url()).await?;
    browser.find(".engine--waiting").await?;
    let loading = State {
        says: ["Opening…", "Abriendo…"],
        offers: [
            &["New engine…", "Open a file…"],
            &["Motor nuevo…", "Abrir un archivo…"],
        ],
    };
    shows(&browser, "loading", &loading).await?;
    let said = browser
        .script("return document.querySelector('.waiting').getAttribute('role')")
        .await?;
    assert_eq!(said, "status", "whoever listens hears that it is under way");
    browser.close().await
}

#[tokio::test]
async fn with_no_storage() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("state-refused", SCREENS[0]).await?;
    before_the_page(
        &browser,
        "IDBFactory.prototype.open = () => { throw new DOMException('not in this window', 'SecurityError') }",
    )
    .await?;
    browser.driver.goto(server.url()).await?;
    browser.find("[role=alert]").await?;
    let refused = State {
        says: [
            "This browser keeps nothing for this page",
            "Este navegador no guarda nada de esta página",
        ],
        offers: [&["Try again"], &["Intentar de nuevo"]],
    };
    shows(&browser, "refused", &refused).await?;
    // An engine of an address that was kept says so, too, and leads back.
    browser
        .script("location.hash = '#/bench/01890000-0000-7000-8000-000000000001'")
        .await?;
    let cannot = State {
        says: [
            "This engine cannot be opened",
            "Este motor no se puede abrir",
        ],
        offers: [&["To the Shelf"], &["Al Estante"]],
    };
    shows(&browser, "cannot-open", &cannot).await?;
    browser.close().await
}

#[tokio::test]
async fn with_no_engine() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("state-empty", SCREENS[0]).await?;
    // As on a tablet whose demo engines were deleted.
    before_the_page(
        &browser,
        "localStorage.setItem('ringland.settings', localStorage.getItem('ringland.settings') ?? '{\"demo_seen\":true}')",
    )
    .await?;
    browser.driver.goto(server.url()).await?;
    browser.find(".empty").await?;
    let empty = State {
        says: [
            "No engine on this tablet yet",
            "Aún no hay motores en esta tableta",
        ],
        offers: [
            &["New engine…", "Open a file…", "Put the demo engines here"],
            &[
                "Motor nuevo…",
                "Abrir un archivo…",
                "Traer los motores de demostración",
            ],
        ],
    };
    shows(&browser, "empty", &empty).await?;
    browser.press_text("Put the demo engines here").await?;
    browser.find(".engine__acts").await?;
    browser.close().await
}

#[tokio::test]
async fn with_damaged_records() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("state-damaged", SCREENS[1]).await?;
    browser.driver.goto(server.url()).await?;
    browser.find(".engine__acts").await?;
    let written = in_database(
        &browser,
        "const cards = db.transaction('cards', 'readwrite').objectStore('cards');\n\
         const ask = cards.getAllKeys();\n\
         ask.onsuccess = () => { cards.put('nonsense', ask.result[0]).onsuccess = () => { db.close(); done('written'); }; }",
    )
    .await?;
    assert_eq!(written, "written");
    browser.driver.refresh().await?;
    browser.find(".safe--wrong").await?;
    let damaged = State {
        says: [
            "cannot be opened: its record is damaged",
            "no se puede abrir: su registro está dañado",
        ],
        offers: [
            &["Save what cannot be read as a file", "Restore a backup…"],
            &[
                "Guardar como archivo lo que no se puede leer",
                "Restaurar una copia de seguridad…",
            ],
        ],
    };
    shows(&browser, "damaged", &damaged).await?;
    browser.close().await
}
