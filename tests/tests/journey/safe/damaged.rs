//! A stored record corrupted: the rest opens, the damaged one is kept aside, offered as a file, and named.

use thirtyfour::prelude::*;

use super::{begin, in_database, open_file, rate, says, shows};
use crate::{
    browser::{Browser, DESKTOP},
    serve,
};

#[tokio::test]
async fn an_entry_and_then_the_card() -> WebDriverResult<()> {
    let server = serve();
    let browser = Browser::open("damaged", DESKTOP).await?;
    let address = begin(&browser, &server.url()).await?;
    rate(&browser, 0, 5).await?;
    let id = address.rsplit('/').next().unwrap_or_default().to_owned();
    browser.press(".top__tab[href^='#/card']").await?;
    browser.find(".card .score").await?;
    browser.press_text("Save").await?;
    let sound = browser.saved(".card.json").await;

    // The last entry, which is the fifth look.
    let written = in_database(
        &browser,
        &format!(
            "const store = db.transaction('entries', 'readwrite').objectStore('entries');\n\
             const ask = store.index('by_card').getAll('{id}');\n\
             ask.onsuccess = () => {{\n\
               const looks = ask.result.filter(r => r.text.includes('\"rating\"'));\n\
               const last = looks.sort((a, b) => JSON.parse(a.text).lamport - JSON.parse(b.text).lamport).at(-1);\n\
               store.put({{ ...last, text: last.text.slice(0, 40) + '\\u0000' }}).onsuccess = () => {{ db.close(); done('written'); }};\n\
             }}"
        ),
    )
    .await?;
    assert_eq!(written, "written");
    browser.driver.goto(&address).await?;
    browser.driver.refresh().await?;
    shows(&browser, 4).await?;
    says(&browser, "1 record of this engine cannot be read").await?;
    browser.picture("safe-damaged-bench").await?;
    browser.press(".top__tab[href^='#/card']").await?;
    browser.find(".card__altered").await?;
    // A report without what is lost would pass for the whole.
    browser.press("#report").await?;
    browser.find("#report-damaged").await?;
    browser.picture("safe-damaged-card").await?;
    browser.press(".top__tab[href='#/shelf']").await?;
    browser.find(".engine__damaged").await?;
    browser
        .script("document.querySelector('.engine__damaged').scrollIntoView({ block: 'center' })")
        .await?;
    browser.picture("safe-damaged-shelf").await?;
    assert_eq!(browser.violations().await?, Vec::<String>::new());
    browser.press(".engine__damaged").await?;
    let aside = browser.saved("-damaged.json").await;
    tokio::time::sleep(std::time::Duration::from_millis(300)).await;
    let aside = std::fs::read_to_string(aside).expect("what is aside");
    assert!(aside.contains(&id) && aside.contains("\\u0000"), "{aside}");

    // Now the card's own record: the others open, this one is named, and its file mends it.
    let written = in_database(
        &browser,
        &format!(
            "const store = db.transaction('cards', 'readwrite').objectStore('cards');\n\
             store.put('nonsense', '{id}').onsuccess = () => {{ db.close(); done('written'); }}"
        ),
    )
    .await?;
    assert_eq!(written, "written");
    browser.driver.refresh().await?;
    says(&browser, "Trial engine cannot be opened").await?;
    says(&browser, "Tarn 14").await?;
    browser.picture("safe-lost").await?;
    assert_eq!(browser.violations().await?, Vec::<String>::new());
    open_file(&browser, "restore-lost", &sound).await?;
    browser
        .until(
            "it to be mended",
            "return document.querySelector('#restore-lost') === null",
        )
        .await?;
    browser.driver.goto(&address).await?;
    browser.driver.refresh().await?;
    shows(&browser, 5).await?;
    browser.close().await
}
