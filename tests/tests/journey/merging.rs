//! A file of a card that is here: what it would bring is shown first, and nothing comes before somebody says so.

use ringland_card::{
    Body, Card, DeviceId, Entry, EntryId, Fact, Grade, Look, Timestamp, file, scale::Scale,
};
use suite::demo;
use thirtyfour::prelude::*;

use crate::{
    browser::{Browser, SCREENS},
    plans::says,
    safe::in_database,
    serve,
};

const OTHER: &str = "Second Rater";

/// The card as another tablet would give it back: with somebody else's look at what was graded here, and another name.
fn from_another_tablet(here: &Card) -> Card {
    let mut there = here.clone();
    let (plan, standing) = (here.plan(), here.standing());
    let graded = here.index().leaves().iter().zip(&standing.looks);
    let (leaf, _) = graded
        .filter(|(_, looks)| !looks.is_empty())
        .find(|(leaf, _)| {
            let scale = plan.scale(&leaf.characteristic(plan).scale);
            matches!(scale, Some(Scale::Grade { .. }))
        })
        .expect("something graded");
    let bodies = [
        Body::Rating {
            at: leaf.at(plan),
            look: Look::Grade(Grade::Severe),
        },
        Body::Fact {
            fact: Fact::Name("Tarn of another name".to_owned()),
        },
    ];
    for (n, body) in (1u8..).zip(bodies) {
        let lamport = there.next_lamport();
        let id = EntryId::v7(1_900_000_000_000 + u64::from(n), [n; 10]);
        let device = DeviceId::v7(1, [77; 10]);
        let entry = Entry::new(id, device, lamport, Timestamp::UNIX_EPOCH, OTHER, body);
        there.append(entry).expect("an entry that may be");
    }
    there
}

#[tokio::test]
async fn what_a_file_would_bring_is_shown_before_it_comes() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("merging", SCREENS[0]).await?;
    browser.driver.goto(server.url()).await?;
    let cards = demo::cards().expect("the demo engines");
    let (_, card) = cards.first().expect("an engine");
    let there = from_another_tablet(card);
    let path = std::env::temp_dir().join(format!("ringland-other{}.card.json", std::process::id()));
    std::fs::write(&path, file::write(&there)).expect("a file");
    browser
        .find(&format!("a[href='#/card/{}']", card.id()))
        .await?;

    give(&browser, &path).await?;
    for line in [
        "1 rating, 1 fact",
        "1 was looked at by somebody else here",
        "in the file “Tarn of another name”. Then “Tarn of another name” holds",
    ] {
        says(&browser, ".merging__lines", line).await?;
    }
    let found = browser.violations().await?;
    assert!(found.is_empty(), "{}", found.join("\n"));
    browser.picture("merging").await?;
    browser.press("#leave").await?;
    says(&browser, ".news", "Nothing was merged into").await?;
    assert_eq!(entries(&browser, card).await?, card.len());

    give(&browser, &path).await?;
    browser.press("#merge").await?;
    says(&browser, ".news", "2 new entries for").await?;
    assert_eq!(entries(&browser, card).await?, there.len());
    let _left = std::fs::remove_file(path);
    browser.close().await
}

#[tokio::test]
async fn several_files_are_asked_about_one_after_the_other_or_merged_together()
-> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("merging-several", SCREENS[1]).await?;
    browser.driver.goto(server.url()).await?;
    let cards = demo::cards().expect("the demo engines");
    let pairs: Vec<(&Card, Card)> = cards
        .iter()
        .take(3)
        .map(|(_, card)| (card, from_another_tablet(card)))
        .collect();
    let folder = std::env::temp_dir();
    let files: Vec<_> = (0..)
        .zip(&pairs)
        .map(|(n, (_, there))| {
            let name = format!("ringland-several{}-{n}.card.json", std::process::id());
            let path = folder.join(name);
            std::fs::write(&path, file::write(there)).expect("a file");
            path
        })
        .collect();
    let last = format!("a[href='#/card/{}']", pairs[2].0.id());
    browser.find(&last).await?;

    // The second file twice: merged once, it brings nothing more.
    let given = [&files[0], &files[1], &files[1], &files[2]];
    let names: Vec<String> = given
        .iter()
        .map(|path| path.display().to_string())
        .collect();
    let input = browser.find("input[type=file]").await?;
    input.send_keys(names.join("\n")).await?;
    says(&browser, "#merge-all", "Merge all (4)").await?;
    browser.picture("merging-several").await?;
    browser.press("#leave").await?;
    says(&browser, "#merge-all", "Merge all (3)").await?;
    assert_eq!(entries(&browser, pairs[0].0).await?, pairs[0].0.len());
    browser.press("#merge").await?;
    // The same file again has gone by itself, and one is left, which needs no other button.
    let alone = "return document.querySelector('#merge') !== null && document.querySelector('#merge-all') === null";
    browser.until("the last question", alone).await?;
    assert_eq!(entries(&browser, pairs[1].0).await?, pairs[1].1.len());
    browser.press("#merge").await?;
    says(&browser, ".news", "2 new entries for").await?;
    says(&browser, ".news", "Nothing was merged into").await?;
    browser
        .until(
            "no question",
            "return document.querySelector('#merge') === null",
        )
        .await?;
    assert_eq!(entries(&browser, pairs[2].0).await?, pairs[2].1.len());
    // What was left can still come, with all at once.
    let input = browser.find("input[type=file]").await?;
    input.send_keys(names.join("\n")).await?;
    browser.press("#merge").await?;
    let came = format!(
        "return document.querySelector('.news')?.textContent.includes('{}')",
        "2 new entries for"
    );
    browser.until("the first to come", &came).await?;
    assert_eq!(entries(&browser, pairs[0].0).await?, pairs[0].1.len());
    for path in files {
        let _left = std::fs::remove_file(path);
    }
    browser.close().await
}

async fn give(browser: &Browser, path: &std::path::Path) -> WebDriverResult<()> {
    let input = browser.find("input[type=file]").await?;
    input.send_keys(path.to_string_lossy().to_string()).await
}

/// How many entries of a card are on the disk.
async fn entries(browser: &Browser, card: &Card) -> WebDriverResult<usize> {
    let count = format!(
        "const ask = db.transaction('entries').objectStore('entries').index('by_card').count('{}');\n\
         ask.onsuccess = () => {{ db.close(); done(ask.result); }}",
        card.id()
    );
    let counted = in_database(browser, &count).await?;
    let counted = counted.as_u64().expect("a count");
    Ok(usize::try_from(counted).expect("a small one"))
}
