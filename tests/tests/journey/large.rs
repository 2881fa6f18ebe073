//! The largest card that there may be, opened, stopped, damaged, rated on and saved: the page never stands
//! still for long. The figures are printed for people; what is asserted is far from any of them, so
//! that a busy machine does not fail it.

#![allow(clippy::print_stdout, reason = "figures are what it is for")]

use std::time::{Duration, Instant};

use ringland_card::{
    Body, Card, CardId, Depth, DeviceId, Entry, EntryId, Grade, Layout, Look, Scale, Timestamp,
    builtin, card::MOST_ENTRIES, file,
};
use serde_json::json;
use thirtyfour::prelude::*;

use crate::{
    browser::{Browser, DESKTOP},
    safe::in_database,
    serve,
};

/// The longest that the page may stand still, in milliseconds: no more than a bound against hanging.
const MOST_STILL_MS: f64 = 5_000.0;

/// The longest that anything here may take: 200,000 entries are a minute's work for a disk that is not busy with
/// another test.
const MOST_WAIT: Duration = Duration::from_mins(4);

/// The length of a remark that makes the file as large as a file may be, or nearly.
const REMARK: usize = 187;

/// In the page: makes the file out of some entries over and over, each with an id and a counter of its
/// own, with its digest, and gives it to the field that files are opened with. It is made there because
/// it is made quicker there than sent.
const MAKE: &str = "const templates = TEMPLATES, tail = TAIL;\n\
    window.make = async (damage) => {\n\
      const entries = [];\n\
      for (let n = 0; n < COUNT; n++) {\n\
        const id = '00000000-0002-7000-8000-' + n.toString(16).padStart(12, '0');\n\
        entries.push(templates[n % templates.length].replace('ID', id).replace('\"LAMPORT\"', n + 1));\n\
      }\n\
      if (damage) entries[damage] = entries[damage].replace(/\"lamport\":\\d+/, '\"lamport\":\"late\"');\n\
      const body = '{\"entries\":[' + entries.join(',') + tail;\n\
      const bytes = new TextEncoder().encode(body);\n\
      const hash = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));\n\
      const hex = [...hash].map(byte => byte.toString(16).padStart(2, '0')).join('');\n\
      return new File(['{\"digest\":\"sha256:' + hex + '\",', body.slice(1)], 'large.card.json');\n\
    };\n\
    window.give = file => {\n\
      const given = new DataTransfer(); given.items.add(file);\n\
      const field = document.querySelector('#restore');\n\
      field.files = given.files;\n\
      field.dispatchEvent(new Event('change', { bubbles: true }));\n\
    };\n\
    window.beat = { last: 0, gaps: [] };\n\
    window.watch = () => { beat.gaps = []; beat.start = beat.last = performance.now() };\n\
    watch();\n\
    const tick = () => {\n\
      const now = performance.now(), gap = now - beat.last;\n\
      if (gap > 30) beat.gaps.push([gap, beat.last - beat.start]);\n\
      beat.last = now;\n\
      setTimeout(tick, 0);\n\
    };\n\
    setTimeout(tick, 0);";

/// The text of the file after its entries, and some entries as text with marks for id and counter.
fn pieces() -> (String, Vec<String>) {
    let plan = builtin(&Layout::inline_six(), Depth::Full).expect("the built-in plan");
    let card = Card::new(CardId::v7(2, [2; 10]), plan).expect("a card");
    let text = file::write(&card);
    let (_, tail) = text.split_once("\"entries\":[").expect("its entries");
    let plan = card.plan();
    let leaves = card.index().leaves().iter();
    let graded = leaves.filter(|leaf| {
        let scale = plan.scale(&leaf.characteristic(plan).scale);
        matches!(scale, Some(Scale::Grade { .. }))
    });
    let mut looks: Vec<Body> = Vec::new();
    for (leaf, grade) in graded.zip(Grade::ALL.into_iter().cycle()) {
        let (at, look) = (leaf.at(plan), Look::Grade(grade));
        looks.push(Body::Rating { at, look });
        looks.push(Body::Remark {
            about: None,
            text: "x".repeat(REMARK),
        });
    }
    let templates = looks.into_iter().enumerate().map(|(n, body)| {
        let id = EntryId::v7(3, [3; 10]);
        let rater = ["A. Rater", "B. Rater"][n % 2];
        let device = DeviceId::v7(1, [1; 10]);
        let entry = Entry::new(id, device, 77_777, Timestamp::UNIX_EPOCH, rater, body);
        let text = file::write_entry(&entry);
        text.replace(&id.to_string(), "ID")
            .replace("77777", "\"LAMPORT\"")
    });
    (tail.to_owned(), templates.collect())
}

/// Waits until a script returns something true, for longer than [`Browser::until`] does.
async fn wait(browser: &Browser, what: &str, script: &str) -> WebDriverResult<()> {
    let begun = Instant::now();
    while browser.script(script).await?.as_bool() != Some(true) {
        if begun.elapsed() > MOST_WAIT {
            let page = browser
                .script("return document.body.innerText.slice(0, 600)")
                .await?;
            panic!("waited in vain for {what}; the page says: {page}");
        }
        tokio::time::sleep(Duration::from_millis(50)).await;
    }
    Ok(())
}

/// Makes the file, damaged at an entry or sound.
async fn make(browser: &Browser, damage: usize) -> WebDriverResult<f64> {
    let script = format!(
        "const done = arguments[0];\n\
         make({damage}).then(file => {{ window.made = file; done(file.size) }}, error => done(String(error)))"
    );
    let size = browser.driver.execute_async(&script, Vec::new()).await?;
    Ok(size.json().as_f64().expect("a file"))
}

/// Does something and waits for what comes of it; prints and holds how long the page stood still.
async fn watched(browser: &Browser, what: &str, act: &str, done: &str) -> WebDriverResult<()> {
    browser.script(&format!("watch(); {act}")).await?;
    wait(browser, what, done).await?;
    let figures = browser
        .script(
            "const gaps = beat.gaps.sort((a, b) => b[0] - a[0]).slice(0, 4);\n\
             return { whole: performance.now() - beat.start, gaps }",
        )
        .await?;
    let figure = |value: &serde_json::Value| value.as_f64().unwrap_or_default();
    let longest = figure(&figures["gaps"][0][0]);
    let gaps = figures["gaps"].as_array().into_iter().flatten();
    let gaps: Vec<String> = gaps
        .map(|gap| {
            format!(
                "{:.0} ms after {:.1} s",
                figure(&gap[0]),
                figure(&gap[1]) / 1e3
            )
        })
        .collect();
    println!(
        "{what}: {:.1} s in all, longest standstill {longest:.0} ms ({})",
        figure(&figures["whole"]) / 1e3,
        gaps.join(", ")
    );
    assert!(
        longest < MOST_STILL_MS,
        "{what}: it stood still for {longest} ms"
    );
    Ok(())
}

async fn entries(browser: &Browser) -> WebDriverResult<u64> {
    let count = in_database(
        browser,
        "const ask = db.transaction('entries').objectStore('entries').count();\n\
         ask.onsuccess = () => { db.close(); done(ask.result); }",
    )
    .await?;
    Ok(count.as_u64().expect("a count"))
}

/// Stops it by hand once so much is done; nothing of it is there then.
async fn stop_at(browser: &Browser, share: f64, before: u64) -> WebDriverResult<()> {
    let act = format!(
        "document.querySelector('.news__head button')?.click(); give(made);\n\
         const stop = () => document.querySelector('#intake-progress')?.value >= {share}\n\
           ? document.querySelector('.news__progress button').click() : setTimeout(stop, 0);\n\
         stop();"
    );
    let done = "return document.querySelector('#intake-progress') === null\n\
                && /Stopped with 1 left/.test(document.body.innerText)";
    watched(browser, &format!("stopped at {share}"), &act, done).await?;
    assert_eq!(entries(browser).await?, before, "nothing of it is here");
    Ok(())
}

#[tokio::test]
async fn the_largest_card_leaves_the_page_alive() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("large", DESKTOP).await?;
    browser.driver.set_script_timeout(MOST_WAIT).await?;
    browser.driver.goto(&server.url()).await?;
    browser.find(".engine__acts").await?;
    let before = entries(&browser).await?;
    let (tail, templates) = pieces();
    let script = MAKE
        .replace("COUNT", &MOST_ENTRIES.to_string())
        .replace("TEMPLATES", &json!(templates).to_string())
        .replace("TAIL", &json!(tail).to_string());
    browser.script(&script).await?;

    let damaged = MOST_ENTRIES / 2;
    make(&browser, damaged).await?;
    let done = format!("return document.body.innerText.includes('entries[{damaged}].lamport')");
    watched(&browser, "a damaged one", "give(made)", &done).await?;
    assert_eq!(entries(&browser).await?, before, "nothing of it is here");

    let size = make(&browser, 0).await?;
    assert!((60e6..67.2e6).contains(&size), "{size} bytes");
    stop_at(&browser, 0.1, before).await?;
    // It is read by then, and being kept.
    stop_at(&browser, 0.3, before).await?;
    let done = "return document.querySelector(\".news__line a[href^='#/bench/']\") !== null";
    watched(&browser, "opened", "give(made)", done).await?;
    let here = before + MOST_ENTRIES as u64;
    assert_eq!(entries(&browser).await?, here, "all of it is here");

    let to = |page: &str| format!("location.hash = '#/{page}/{}'", CardId::v7(2, [2; 10]));
    let done = "return document.querySelector('.bench .map') !== null";
    watched(&browser, "its Bench", &to("bench"), done).await?;
    let done = "return document.querySelector('.card .score') !== null";
    watched(&browser, "its Card", &to("card"), done).await?;
    browser.close().await
}
