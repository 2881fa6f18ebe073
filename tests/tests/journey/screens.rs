//! What holds on every screen: the accessibility checker, pictures, zoom, motion, arrow keys, help,
//! what shows where nothing can be kept, no request beyond the page's own
//! origin, the server gone, the single file from a stick.

use std::{io::ErrorKind, net::TcpListener, time::Duration};

use serde_json::json;
use thirtyfour::prelude::*;

use crate::{
    browser::{Browser, DESKTOP, SCREENS},
    dist, serve,
    spanish::ask_for_spanish,
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
        ("gauging", format!("#/gauging/{id}")),
        ("card", format!("#/card/{id}")),
        ("photos", format!("#/photos/{id}")),
        ("plans", "#/plans".to_owned()),
        ("help-grades", "#/help/grades".to_owned()),
        ("help-areas", "#/help/areas".to_owned()),
        ("help-score", "#/help/score".to_owned()),
        ("help-photos", "#/help/photos".to_owned()),
        ("help-seals", "#/help/seals".to_owned()),
    ])
}

/// The address of one of the [`screens`].
fn address_of<'s>(screens: &'s [(&'static str, String)], name: &str) -> &'s str {
    let found = screens.iter().find(|(screen, _)| *screen == name);
    found.map_or("", |(_, address)| address)
}

async fn show(browser: &Browser, address: &str) -> WebDriverResult<()> {
    browser
        .script(&format!("location.hash = '{address}'"))
        .await?;
    tokio::time::sleep(Duration::from_millis(900)).await;
    Ok(())
}

/// The themes that may be chosen by name.
pub(crate) const THEMES: [&str; 3] = ["light", "dark", "sun"];

/// Shows a theme as choosing it would.
async fn dress(browser: &Browser, theme: &str) -> WebDriverResult<()> {
    let root = format!("document.documentElement.dataset.theme = '{theme}'");
    browser.script(&root).await.map(|_| ())
}

/// Looks at the screen in each theme: a picture, and what the checker finds wrong.
pub(crate) async fn look(
    browser: &Browser,
    name: &str,
    themes: &[&str],
) -> WebDriverResult<Vec<String>> {
    let mut found = Vec::new();
    for theme in themes {
        dress(browser, theme).await?;
        let name = format!("{name}-{theme}");
        browser.picture(&name).await?;
        let wrong = browser.violations().await?;
        found.extend(wrong.into_iter().map(|wrong| format!("{name}: {wrong}")));
    }
    Ok(found)
}

/// Looks at every screen in each theme; a screen is opened once for all of them.
async fn look_at_all(
    browser: &Browser,
    size: &str,
    themes: &[&str],
) -> WebDriverResult<Vec<String>> {
    let mut found = Vec::new();
    for (name, address) in screens(browser).await? {
        show(browser, &address).await?;
        found.extend(look(browser, &format!("{name}-{size}"), themes).await?);
        if name == "plans" {
            found.extend(the_plan_editor(browser, size, themes).await?);
        }
        if name == "bench" {
            browser.press(".pad .button--act").await?;
            tokio::time::sleep(Duration::from_millis(400)).await;
            found.extend(look(browser, &format!("pad-{size}"), themes).await?);
        }
    }
    Ok(found)
}

#[tokio::test]
async fn the_checker_finds_nothing_on_any_screen_in_any_theme() -> WebDriverResult<()> {
    let server = serve();
    let mut found = Vec::new();
    for screen in SCREENS {
        let browser = Browser::open(&format!("screens-{}", screen.name), screen).await?;
        browser.driver.goto(server.url()).await?;
        found.extend(look_at_all(&browser, screen.name, &THEMES).await?);
        browser.close().await?;
    }
    assert!(found.is_empty(), "{}", found.join("\n"));
    Ok(())
}

/// Derives a plan, opens what opens in its editor, makes something wrong in it, and looks.
async fn the_plan_editor(
    browser: &Browser,
    size: &str,
    themes: &[&str],
) -> WebDriverResult<Vec<String>> {
    let name = browser.find("#new-plan-name").await?;
    name.send_keys("Plan of the yard").await?;
    browser.press(".plans__derive").await?;
    browser.find("#plan-title").await?;
    let open = "for (const fold of document.querySelectorAll('[data-fill=\"section:camshaft\"], [data-fill=\"scale:polished\"], [data-part=rows] > .plan-add, [data-part=caps] > .plan-add, [data-part=criteria] > .plan-add, [data-fill=\"scale:mobility\"]'))\n\
                  fold.querySelector('summary').click();\n\
                const field = document.getElementById('f:weight:section:camshaft');\n\
                field.value = '-1'; field.dispatchEvent(new Event('change', { bubbles: true }));\n\
                document.getElementById('look:camshaft:lobes:lobe/intake:wear').click()";
    browser.script(open).await?;
    tokio::time::sleep(Duration::from_millis(300)).await;
    look(browser, &format!("plan-{size}"), themes).await
}

#[tokio::test]
async fn the_checker_finds_nothing_in_spanish() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("screens-spanish", SCREENS[2]).await?;
    ask_for_spanish(&browser).await?;
    browser.driver.goto(server.url()).await?;
    let found = look_at_all(&browser, "phone-es", &["light"]).await?;
    assert!(found.is_empty(), "{}", found.join("\n"));
    browser.close().await
}

/// What is wider than the page, or than the part of it that may scroll: it would be cut off.
const CUT_OFF: &str = "const page = document.documentElement;\n\
    const wide = page.scrollWidth > page.clientWidth + 1 ? ['the page: ' + page.scrollWidth] : [];\n\
    const cut = [...document.querySelectorAll('button, a, input, h1, h2, p, dd, dt, li, table, svg, span')].filter(e => {\n\
      const box = e.getBoundingClientRect();\n\
      return box.width > 0 && !e.closest('.visually-hidden, .skip, .table-frame, .bench__map')\n\
        && (box.left < -1 || box.right > page.clientWidth + 1);\n\
    });\n\
    return wide.concat(cut.slice(0, 4).map(e => e.outerHTML.slice(0, 120)))";

/// WCAG 2.2, success criteria 1.4.4 and 1.4.10: a tablet at 200 % has half its pixels to show on, and
/// text may be twice as large.
#[tokio::test]
async fn nothing_is_cut_off_at_twice_the_size() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("zoom", DESKTOP).await?;
    browser.driver.goto(server.url()).await?;
    let screens = screens(&browser).await?;
    let mut found = Vec::new();
    for (size, width, height, text) in [
        ("640x400", 640, 400, "100%"),
        ("320x256", 320, 256, "100%"),
        ("large-text", 1280, 800, "200%"),
    ] {
        let metrics =
            json!({ "width": width, "height": height, "deviceScaleFactor": 1, "mobile": false });
        browser
            .cdp("Emulation.setDeviceMetricsOverride", metrics)
            .await?;
        browser
            .script(&format!(
                "document.documentElement.style.fontSize = '{text}'"
            ))
            .await?;
        for (name, address) in &screens {
            show(&browser, address).await?;
            browser.picture(&format!("{name}-{size}")).await?;
            let cut = browser.script(CUT_OFF).await?;
            let cut = cut.as_array().cloned().unwrap_or_default();
            found.extend(cut.into_iter().map(|cut| format!("{name} {size}: {cut}")));
        }
    }
    assert!(found.is_empty(), "{}", found.join("\n"));
    browser.close().await
}

#[tokio::test]
async fn nothing_moves_where_motion_is_to_be_reduced() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("motion", DESKTOP).await?;
    let reduced = json!({ "features": [{ "name": "prefers-reduced-motion", "value": "reduce" }] });
    browser.cdp("Emulation.setEmulatedMedia", reduced).await?;
    browser.driver.goto(server.url()).await?;
    for (name, address) in screens(&browser).await? {
        show(&browser, &address).await?;
        let moving = browser
            .script(
                "return document.getAnimations().length + [...document.querySelectorAll('*')]\n\
                 .filter(e => getComputedStyle(e).scrollBehavior === 'smooth').length",
            )
            .await?;
        assert_eq!(moving, 0, "{name}");
    }
    browser.close().await
}

/// The cell that has the keyboard, by its row and column on its map.
const CELL: &str = "const cell = document.activeElement;\n\
    if (!cell.matches('.cell')) return null;\n\
    const rows = [...cell.closest('.overview, .sectionmap').querySelectorAll('.map tbody tr')];\n\
    return [rows.indexOf(cell.closest('tr')), [...cell.closest('tr').querySelectorAll('.cell')].indexOf(cell)]";

/// Puts the keyboard on the first row that has one below it in a table of some columns; gives the
/// row's number on the map and its last column.
const BEGIN: &str = "const rows = [...document.querySelectorAll('.overview .map tbody tr')];\n\
    const cells = row => row.querySelectorAll('.cell');\n\
    const at = rows.findIndex(row => cells(row).length > 3 && row.nextElementSibling !== null);\n\
    cells(rows[at])[0].focus();\n\
    return [at, cells(rows[at]).length - 1]";

#[tokio::test]
async fn the_maps_are_grids_for_the_arrow_keys() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("arrows", DESKTOP).await?;
    browser.driver.goto(server.url()).await?;
    let screens = screens(&browser).await?;
    let key = |key: Key| {
        let chain = browser.driver.action_chain();
        async move { chain.send_keys(key).perform().await }
    };
    for name in ["bench", "card"] {
        show(&browser, address_of(&screens, name)).await?;
        let odd = browser
            .script(
                "return [...document.querySelectorAll('.map')].filter(map => map.getAttribute('role') !== 'grid'\n\
                 || map.querySelectorAll('[tabindex=\"0\"]').length !== 1\n\
                 || [...map.querySelectorAll('tbody tr')].some(row => row.querySelector('th[scope=row]') === null)).length",
            )
            .await?;
        assert_eq!(
            odd, 0,
            "{name}: each table is a grid with headed rows and one stop"
        );
        let start = browser.script(BEGIN).await?;
        let (row, last) = (
            start[0].as_u64().unwrap_or(0),
            start[1].as_u64().unwrap_or(0),
        );
        assert!(last > 2, "{name}: a table of some columns");
        for (pressed, at) in [
            (Key::Right, [row, 1]),
            (Key::Down, [row + 1, 1]),
            (Key::End, [row + 1, last]),
            (Key::Right, [row + 1, last]),
            (Key::Up, [row, last]),
            (Key::Home, [row, 0]),
            (Key::Left, [row, 0]),
        ] {
            key(pressed).await?;
            assert_eq!(browser.script(CELL).await?, json!(at), "{name}");
        }
    }
    arrows_on_a_section(&browser, &screens).await?;
    browser.close().await
}

/// On the map of a section the arrows take the pad along, and the keyboard follows it.
async fn arrows_on_a_section(
    browser: &Browser,
    screens: &[(&'static str, String)],
) -> WebDriverResult<()> {
    show(browser, address_of(screens, "bench")).await?;
    browser.press(".overview__open").await?;
    browser
        .until(
            "the cell on the pad",
            "const cell = document.querySelector('.sectionmap [aria-current]'); cell?.focus(); return cell !== null",
        )
        .await?;
    let before = browser.script(CELL).await?;
    let down = browser.driver.action_chain().send_keys(Key::Down);
    down.perform().await?;
    browser
        .until(
            "the keyboard to follow",
            &format!(
                "const at = (() => {{ {CELL} }})(); return at !== null && at[0] === {before}[0] + 1\n\
                 && document.activeElement.getAttribute('aria-current') === 'true'",
            ),
        )
        .await
}

#[tokio::test]
async fn help_is_at_hand_and_leads_back() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("help", DESKTOP).await?;
    browser.driver.goto(server.url()).await?;
    let screens = screens(&browser).await?;
    // From the Card, and back to it.
    show(&browser, address_of(&screens, "card")).await?;
    browser.press("a[href='#/help/score']").await?;
    browser
        .until(
            "the page about the score",
            "return document.querySelector('.help h1')?.textContent === 'What the score means'\n\
             && document.title === 'What the score means · Ringland' && scrollY === 0",
        )
        .await?;
    browser.press(".help__ways button").await?;
    browser.find(".card .score").await?;
    // From the pad, and back to the same leaf.
    show(&browser, address_of(&screens, "bench")).await?;
    browser.press(".overview .cell").await?;
    let title = "document.querySelector('#pad-title')?.textContent";
    let way = browser.find(".pad .help-link").await?;
    let before = browser.script(&format!("return {title}")).await?;
    way.click().await?;
    browser.find(".help__figure svg").await?;
    browser.press(".help__ways button").await?;
    browser
        .until(
            "the same leaf on the pad",
            &format!("return {title} === {before}"),
        )
        .await?;
    // The way past the bar stays on the screen.
    browser
        .script("document.querySelector('.skip').click()")
        .await?;
    tokio::time::sleep(Duration::from_millis(200)).await;
    let at = browser
        .script("return document.activeElement.id + ' ' + location.hash")
        .await?;
    let at = at.as_str().unwrap_or_default();
    assert!(at.starts_with("main #/bench/"), "{at}");
    browser.close().await
}

/// A browser that keeps nothing.
const NOTHING_IS_KEPT: &str =
    "IDBFactory.prototype.open = () => { throw new DOMException('refused', 'SecurityError') }";

#[tokio::test]
async fn where_nothing_is_kept_the_shelf_says_what_to_do() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("refused", SCREENS[2]).await?;
    let source = json!({ "source": NOTHING_IS_KEPT });
    browser
        .cdp("Page.addScriptToEvaluateOnNewDocument", source)
        .await?;
    browser.driver.goto(server.url()).await?;
    browser
        .until(
            "what to do",
            "return document.querySelector('.trouble[role=alert]')?.innerText.includes('private window') ?? false",
        )
        .await?;
    let found = look(&browser, "refused-phone", &THEMES).await?;
    assert!(found.is_empty(), "{}", found.join("\n"));
    browser.close().await
}

#[tokio::test]
async fn an_offer_to_install_is_kept_until_it_is_wanted() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("install", DESKTOP).await?;
    browser.driver.goto(server.url()).await?;
    screens(&browser).await?;
    // This very browser may offer it by now; where one does not, nothing is shown.
    browser
        .script("dispatchEvent(new Event('appinstalled'))")
        .await?;
    browser
        .until(
            "no offer",
            "return document.querySelector('.install') === null",
        )
        .await?;
    browser
        .script(
            "const offer = new Event('beforeinstallprompt', { cancelable: true });\n\
             offer.prompt = () => { window.prompted = offer.defaultPrevented };\n\
             dispatchEvent(offer)",
        )
        .await?;
    browser.press(".install .button").await?;
    browser
        .until(
            "the browser's own question",
            "return window.prompted === true && document.querySelector('.install') === null",
        )
        .await?;
    browser.close().await
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
    show(&browser, address_of(&screens, "card")).await?;
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
