//! What holds on every screen: the accessibility checker, pictures, no request beyond the page's own
//! origin, the server gone, the single file from a stick.

use std::{io::ErrorKind, net::TcpListener, time::Duration};

use thirtyfour::prelude::*;

use crate::{
    browser::{Browser, DESKTOP, SCREENS},
    dist, serve,
};

/// The addresses of the demo engine's screens, once the Shelf shows it.
async fn screens(browser: &Browser) -> WebDriverResult<Vec<(&'static str, String)>> {
    browser
        .until(
            "the Shelf",
            "return document.querySelectorAll(\"a[href^='#/card/']\").length > 6",
        )
        .await?;
    let card = browser
        .script("return document.querySelector(\"a[href^='#/card/']\").getAttribute('href')")
        .await?;
    let id = card
        .as_str()
        .unwrap_or_default()
        .trim_start_matches("#/card/")
        .to_owned();
    Ok(vec![
        ("shelf", "#/shelf".to_owned()),
        ("new", "#/new".to_owned()),
        ("facts", format!("#/facts/{id}")),
        ("bench", format!("#/bench/{id}")),
        ("card", format!("#/card/{id}")),
        ("plans", "#/plans".to_owned()),
    ])
}

async fn show(browser: &Browser, address: &str) -> WebDriverResult<()> {
    browser
        .script(&format!("location.hash = '{address}'"))
        .await?;
    tokio::time::sleep(Duration::from_millis(900)).await;
    Ok(())
}

#[tokio::test]
async fn the_checker_finds_nothing_on_any_screen_in_light_and_dark() -> WebDriverResult<()> {
    let server = serve();
    let mut found = Vec::new();
    for screen in SCREENS {
        let browser = Browser::open(&format!("screens-{}", screen.name), screen).await?;
        browser.driver.goto(server.url()).await?;
        let screens = screens(&browser).await?;
        for theme in ["light", "dark"] {
            let root = format!("document.documentElement.dataset.theme = '{theme}'");
            browser.script(&root).await?;
            for (name, address) in &screens {
                show(&browser, address).await?;
                browser
                    .picture(&format!("{name}-{}-{theme}", screen.name))
                    .await?;
                let wrong = browser.violations().await?;
                found.extend(
                    wrong
                        .into_iter()
                        .map(|wrong| format!("{name} {} {theme}: {wrong}", screen.name)),
                );
                if *name == "plans" {
                    found.extend(the_plan_editor(&browser, screen.name, theme).await?);
                }
                if *name == "bench" {
                    browser.press(".pad .button--act").await?;
                    tokio::time::sleep(Duration::from_millis(400)).await;
                    browser
                        .picture(&format!("pad-{}-{theme}", screen.name))
                        .await?;
                    let wrong = browser.violations().await?;
                    found.extend(
                        wrong
                            .into_iter()
                            .map(|wrong| format!("pad {} {theme}: {wrong}", screen.name)),
                    );
                }
            }
        }
        browser.close().await?;
    }
    assert!(found.is_empty(), "{}", found.join("\n"));
    Ok(())
}

/// Derives a plan, opens what opens in its editor, makes something wrong in it, and looks.
async fn the_plan_editor(
    browser: &Browser,
    screen: &str,
    theme: &str,
) -> WebDriverResult<Vec<String>> {
    let name = browser.find("#new-plan-name").await?;
    name.send_keys("Plan of the yard").await?;
    browser.press(".plans__derive").await?;
    browser.find("#plan-title").await?;
    let open = "for (const fold of document.querySelectorAll('[data-fill=\"section:camshaft\"], [data-fill=\"scale:polished\"], [data-part=rows] > .plan-add'))\n\
                  fold.querySelector('summary').click();\n\
                const field = document.getElementById('f:weight:section:camshaft');\n\
                field.value = '-1'; field.dispatchEvent(new Event('change', { bubbles: true }));\n\
                document.getElementById('look:camshaft:lobes:lobe/intake:wear').click()";
    browser.script(open).await?;
    tokio::time::sleep(Duration::from_millis(300)).await;
    browser.picture(&format!("plan-{screen}-{theme}")).await?;
    let wrong = browser.violations().await?;
    Ok(wrong
        .into_iter()
        .map(|wrong| format!("plan {screen} {theme}: {wrong}"))
        .collect())
}

#[tokio::test]
async fn nothing_reaches_beyond_the_page_and_the_site_works_with_the_server_gone()
-> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("offline", DESKTOP).await?;
    browser.driver.goto(server.url()).await?;
    screens(&browser).await?;
    let other = TcpListener::bind("127.0.0.1:0").expect("a port of another origin");
    other
        .set_nonblocking(true)
        .expect("a listener that does not wait");
    let port = other.local_addr().expect("its address").port();
    let tried = browser
        .script(&format!(
            "const image = new Image(); image.src = 'http://127.0.0.1:{port}/i';\n\
             navigator.sendBeacon('http://127.0.0.1:{port}/b', 'x');\n\
             return fetch('http://127.0.0.1:{port}/f').then(() => 'went out', () => 'held back')"
        ))
        .await?;
    assert_eq!(tried, "held back");
    tokio::time::sleep(Duration::from_millis(300)).await;
    let came = other
        .accept()
        .map(|_| ())
        .expect_err("nothing comes")
        .kind();
    assert_eq!(came, ErrorKind::WouldBlock);

    browser
        .until(
            "the service worker",
            "return navigator.serviceWorker.controller !== null",
        )
        .await?;
    server.stop();
    browser.script("location.reload()").await?;
    tokio::time::sleep(Duration::from_millis(500)).await;
    screens(&browser).await?;
    browser.close().await?;
    Ok(())
}

#[tokio::test]
async fn the_single_file_works_from_a_stick() -> WebDriverResult<()> {
    let browser = Browser::open("stick", DESKTOP).await?;
    let file = format!("file://{}", dist().join("ringland.html").display());
    browser.driver.goto(&file).await?;
    let screens = screens(&browser).await?;
    show(&browser, &screens[4].1).await?;
    browser
        .until(
            "the Card",
            "return document.body.innerText.includes('What holds it down')",
        )
        .await?;
    browser.driver.refresh().await?;
    browser
        .until(
            "the Card again",
            "return document.body.innerText.includes('What holds it down')",
        )
        .await?;
    browser.close().await?;
    Ok(())
}
