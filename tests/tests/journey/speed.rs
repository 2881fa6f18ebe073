//! How quick it is in Chromium on a processor slowed four times: figures for people to read, run by
//! `cargo xtask bench` and by no other command. Nothing here fails for being slow.

#![allow(clippy::print_stdout, reason = "figures are what it is for")]

use std::{fs, path::Path};

use ringland_card::{
    Body, Card, CardId, Depth, DeviceId, Entry, EntryId, Grade, Layout, Look, Timestamp, builtin,
    file, layout::Arrangement, scale::Scale,
};
use serde_json::json;
use suite::demo;
use thirtyfour::prelude::*;

use crate::{
    bench::keys,
    browser::{Browser, SCREENS},
    serve,
};

/// How many times slower the processor is made.
const SLOWED: u32 = 4;
/// Engines on the Shelf.
const ENGINES: usize = 50;
/// Looks typed on the large card.
const LOOKS: usize = 150;
/// Readings typed: those of six bores at three heights on two axes.
const READINGS: usize = 36;
/// Starts and openings measured.
const TIMES: usize = 7;

/// Put into every page before its own scripts: when the Shelf first stood with so many engines.
const WATCH_START: &str = "const look = () => document.querySelectorAll('.engine').length >= ENGINES\n\
    ? setTimeout(() => { window.usable = performance.now() }) : requestAnimationFrame(look);\n\
    requestAnimationFrame(look);";

/// From a key to the map that shows what it did: the work of the page, script and drawing, which leaves
/// out the wait for the display's next frame; the same with that wait; and until the pad has gone on.
const WATCH_LOOKS: &str = "window.looks = []; let begun = null, one = null;\n\
    addEventListener('keydown', () => { begun = performance.now(); one = null }, true);\n\
    const then = what => { const turn = new MessageChannel(); turn.port1.onmessage = what; turn.port2.postMessage(0) };\n\
    new MutationObserver(changes => {\n\
      const now = performance.now(), of = name => changes.some(change => change.attributeName === name);\n\
      if (begun !== null && one === null && of('class')) {\n\
        const from = begun, look = one = { script: now - begun };\n\
        requestAnimationFrame(() => { const frame = performance.now(); then(() => {\n\
          const now = performance.now(); look.work = look.script + now - frame; look.seen = now - from;\n\
        }) });\n\
      }\n\
      if (one !== null && of('aria-current')) {\n\
        const from = begun, look = one; begun = one = null;\n\
        requestAnimationFrame(() => then(() => { look.on = performance.now() - from; looks.push(look) }));\n\
      }\n\
    }).observe(document.querySelector('.bench__map'), { attributes: true, attributeFilter: ['class', 'aria-current'], subtree: true });";

/// From a reading's Enter to what is found of it: script, and script and drawing.
const WATCH_READINGS: &str = "window.readings = []; let begun = null;\n\
    addEventListener('keydown', event => { if (event.key === 'Enter') begun = performance.now() }, true);\n\
    const then = what => { const turn = new MessageChannel(); turn.port1.onmessage = what; turn.port2.postMessage(0) };\n\
    new MutationObserver(changes => {\n\
      if (begun === null || !changes.some(change => change.target.closest?.('.gaugebox__found'))) return;\n\
      const reading = { script: performance.now() - begun }; begun = null;\n\
      requestAnimationFrame(() => { const frame = performance.now(); then(() => {\n\
        reading.work = reading.script + performance.now() - frame; readings.push(reading);\n\
      }) });\n\
    }).observe(document.querySelector('.gauging__work'), { childList: true, subtree: true });";

#[tokio::test]
#[ignore = "figures for people, by `cargo xtask bench`"]
async fn figures_in_the_browser() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("speed", SCREENS[0]).await?;
    browser.driver.goto(server.url()).await?;
    fill_the_shelf(&browser).await?;
    let slowed = |rate: u32| browser.cdp("Emulation.setCPUThrottlingRate", json!({ "rate": rate }));

    println!("in Chromium, the processor slowed {SLOWED} times");
    browser
        .cdp(
            "Page.addScriptToEvaluateOnNewDocument",
            json!({ "source": WATCH_START.replace("ENGINES", &ENGINES.to_string()) }),
        )
        .await?;
    slowed(SLOWED).await?;
    let mut starts = Vec::new();
    for _ in 0..TIMES {
        browser.script("location.reload()").await?;
        browser
            .until("the Shelf", "return window.usable > 0")
            .await?;
        starts.extend(browser.script("return window.usable").await?.as_f64());
    }
    say("cached start to the Shelf with 50 engines", &starts);

    let (mut cards, mut benches) = (Vec::new(), Vec::new());
    for _ in 0..TIMES {
        cards.extend(opening(&browser, "card", ".card .score").await?);
        benches.extend(opening(&browser, "bench", ".bench .map").await?);
    }
    say("opening the Card of 1,647 ratings", &cards);
    say("opening its Bench", &benches);

    browser.press(".pad .button--act").await?;
    browser.script(WATCH_LOOKS).await?;
    let plan = large_plan();
    for (_, keys) in keys(&plan).iter().skip(rated()).take(LOOKS) {
        let before = browser.script("return looks.length").await?;
        browser
            .driver
            .action_chain()
            .send_keys(keys)
            .perform()
            .await?;
        browser
            .until("the map", &format!("return looks.length > {before}"))
            .await?;
    }
    let looks = browser.script("return looks").await?;
    for (what, of) in SEEN {
        let times = looks.as_array().into_iter().flatten();
        say(
            what,
            &times
                .filter_map(|look| look[of].as_f64())
                .collect::<Vec<_>>(),
        );
    }
    gauging(&browser).await?;
    slowed(1).await?;
    if let Some(bytes) = largest_page() {
        println!("  {:<52} {:>7.0} MB", "memory of the page", bytes / 1e6);
    }
    browser.close().await
}

/// Readings typed on an engine that has been measured whole: every one has neighbours, a limit and a verdict.
async fn gauging(browser: &Browser) -> WebDriverResult<()> {
    let demo = demo::cards().expect("the demo engines");
    let (_, measured) = demo
        .iter()
        .max_by_key(|(_, card)| readings(card))
        .expect("an engine");
    let address = format!("location.hash = '#/gauging/{}'", measured.id());
    browser.script(&address).await?;
    browser.find(".gaugebox__read").await?;
    let bores = "const kind = [...document.querySelectorAll('[data-kind]')].find(k => k.textContent.startsWith('Liner · bore'));\n\
        kind?.click(); return kind !== undefined";
    browser.until("the bores", bores).await?;
    browser
        .until(
            "their fields",
            "return document.querySelector('.gaugebox__read[data-station=top]') !== null",
        )
        .await?;
    browser.script(WATCH_READINGS).await?;
    browser
        .script("document.querySelector('.gaugebox__read').focus()")
        .await?;
    for _ in 0..READINGS {
        let before = browser.script("return readings.length").await?;
        // What another rater read there, so that nothing is asked about it.
        let theirs = "return document.activeElement.placeholder?.split(' ')[0] ?? ''";
        let theirs = browser.script(theirs).await?;
        let Some(figure) = theirs.as_str().filter(|figure| !figure.is_empty()) else {
            break;
        };
        browser
            .driver
            .action_chain()
            .send_keys([figure, "\u{e007}"].concat())
            .perform()
            .await?;
        browser
            .until("the verdict", &format!("return readings.length > {before}"))
            .await?;
    }
    let readings = browser.script("return readings").await?;
    for (what, of) in FOUND {
        let times = readings.as_array().into_iter().flatten();
        say(
            what,
            &times
                .filter_map(|reading| reading[of].as_f64())
                .collect::<Vec<_>>(),
        );
    }
    Ok(())
}

fn readings(card: &Card) -> usize {
    let bodies = card.entries().map(|entry| &entry.body);
    bodies
        .filter(|body| matches!(body, Body::Reading { .. }))
        .count()
}

/// What is said of the readings, on a demo engine with all its sizes measured.
const FOUND: [(&str, &str); 2] = [
    ("a reading: script until its verdict stands", "script"),
    ("a reading: script and drawing of its verdict", "work"),
];

/// What is said of the looks, on a card of 1,647 ratings.
const SEEN: [(&str, &str); 4] = [
    ("a key: script until the map is drawn again", "script"),
    ("a key: script and drawing of the new map", "work"),
    ("the same with the wait for the next frame", "seen"),
    ("until it is on disk and the pad at the next place", "on"),
];

/// Median, 95th percentile and worst, in milliseconds.
fn say(what: &str, milliseconds: &[f64]) {
    let mut sorted = milliseconds.to_vec();
    sorted.sort_by(f64::total_cmp);
    let at = |share: usize| sorted.get((sorted.len() * share).div_ceil(100).max(1) - 1);
    let (Some(median), Some(p95), Some(worst)) = (at(50), at(95), sorted.last()) else {
        return println!("  {what}: not measured");
    };
    println!("  {what:<52} {median:>7.0} ms, p95 {p95:.0}, worst {worst:.0}");
}

/// From pressing the way to a screen of the large card until it is there.
async fn opening(browser: &Browser, screen: &str, there: &str) -> WebDriverResult<Option<f64>> {
    browser.script("location.hash = '#/shelf'").await?;
    browser
        .until(
            "the Shelf",
            "return document.querySelector('.engine') !== null",
        )
        .await?;
    browser
        .script(&format!(
            "window.opened = null; const from = performance.now();\n\
             const look = () => document.querySelector({there})\n\
               ? setTimeout(() => {{ window.opened = performance.now() - from }}) : requestAnimationFrame(look);\n\
             location.hash = '#/{screen}/{}'; requestAnimationFrame(look);",
            large_id(),
            there = json!(there),
        ))
        .await?;
    browser
        .until(there, "return window.opened !== null")
        .await?;
    Ok(browser.script("return window.opened").await?.as_f64())
}

/// The demo engines, copies of them, and the large one.
async fn fill_the_shelf(browser: &Browser) -> WebDriverResult<()> {
    let shown =
        |engines: usize| format!("return document.querySelectorAll('.engine').length >= {engines}");
    browser.until("the demo engines", &shown(7)).await?;
    let demo = demo::cards().expect("the demo engines");
    let mut texts: Vec<String> = (0..ENGINES - demo.len() - 1)
        .map(|n| file::write(&copy(&demo[n % demo.len()].1, n)))
        .collect();
    texts.push(file::write(&large_card()));
    let path = std::env::temp_dir().join(format!("ringland-speed-{}.json", std::process::id()));
    fs::write(
        &path,
        file::write_backup(texts.iter().map(String::as_str), [], []),
    )
    .expect("a backup");
    let input = browser.find("input[type=file]").await?;
    input.send_keys(path.to_string_lossy().to_string()).await?;
    browser.until("every engine", &shown(ENGINES)).await?;
    let _left = fs::remove_file(path);
    browser
        .script(
            "const set = JSON.parse(localStorage.getItem('ringland.settings'));\n\
             localStorage.setItem('ringland.settings', JSON.stringify({ ...set, raters: ['V. Large'], rater: 'V. Large' }))",
        )
        .await?;
    Ok(())
}

fn copy(card: &Card, n: usize) -> Card {
    let id = CardId::v7(1_700_000_000_000 + n as u64, [9; 10]);
    let mut copy = Card::new(id, card.first_plan().clone()).expect("a plan that stood");
    for entry in card.entries() {
        copy.append(entry.clone()).expect("an entry that stood");
    }
    copy
}

fn large_plan() -> ringland_card::Plan {
    let layout = Layout {
        arrangement: Arrangement::Vee,
        cylinders: 16,
        mains: 9,
        ..Layout::inline_six()
    };
    builtin(&layout, Depth::Full).expect("a V16 has a plan")
}

fn large_id() -> CardId {
    CardId::v7(1_700_000_100_000, [8; 10])
}

/// How many of its leaves are rated before.
fn rated() -> usize {
    large_plan().rating_count() / 2
}

/// A V16, half rated in the order in which the keys go.
fn large_card() -> Card {
    let plan = large_plan();
    let mut card = Card::new(large_id(), plan.clone()).expect("a checked plan");
    let leaves = card.index().leaves().to_vec();
    for (lamport, (leaf, _)) in (1u64..).zip(keys(&plan)).take(rated()) {
        let leaf = &leaves[leaf];
        let look = match plan.scale(&leaf.characteristic(&plan).scale) {
            Some(Scale::Grade { .. }) => Look::Grade(Grade::Trace),
            Some(Scale::State { states }) => Look::State(states[0].id.clone()),
            Some(Scale::Count { .. }) => Look::Count(1),
            Some(Scale::Extent { .. }) => Look::Percent(3.0),
            _ => Look::NotInspected(ringland_card::NotInspected::Damaged),
        };
        let body = Body::Rating {
            at: leaf.at(&plan),
            look,
        };
        let entry = Entry::new(
            EntryId::v7(lamport, [8; 10]),
            DeviceId::v7(1, [8; 10]),
            lamport,
            Timestamp::UNIX_EPOCH,
            "V. Large",
            body,
        );
        card.append(entry).expect("a look that fits");
    }
    card
}

/// The proportional set size of the largest page process on this machine, in bytes (Linux).
fn largest_page() -> Option<f64> {
    fs::read_dir("/proc")
        .ok()?
        .flatten()
        .filter(|process| {
            fs::read_to_string(process.path().join("cmdline"))
                .is_ok_and(|line| line.contains("--type=renderer"))
        })
        .filter_map(|process| memory(&process.path()))
        .max_by(f64::total_cmp)
}

fn memory(process: &Path) -> Option<f64> {
    let text = fs::read_to_string(process.join("smaps_rollup")).ok()?;
    let line = text.lines().find_map(|line| line.strip_prefix("Pss:"))?;
    Some(
        line.trim()
            .trim_end_matches("kB")
            .trim()
            .parse::<f64>()
            .ok()?
            * 1024.0,
    )
}
