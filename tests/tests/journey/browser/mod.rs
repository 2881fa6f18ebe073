//! A browser at the bench: a real one, driven as a hand would.

mod kind;

use std::{
    env,
    path::{Path, PathBuf},
    time::Duration,
};

use serde_json::{Value, json};
use thirtyfour::{WebDriver, prelude::*};

pub(crate) use self::kind::Kind;
use self::kind::{Driver, download_to};

/// What a screen is like.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Screen {
    /// Its name in file names.
    pub(crate) name: &'static str,
    /// Width in CSS pixels.
    pub(crate) width: u32,
    /// Height in CSS pixels.
    pub(crate) height: u32,
    /// Whether fingers touch it.
    pub(crate) touch: bool,
}

/// The screens that the design names.
pub(crate) const SCREENS: [Screen; 3] = [
    Screen {
        name: "1280x800",
        width: 1280,
        height: 800,
        touch: true,
    },
    Screen {
        name: "800x1280",
        width: 800,
        height: 1280,
        touch: true,
    },
    Screen {
        name: "phone",
        width: 390,
        height: 844,
        touch: true,
    },
];

/// A desktop with a keyboard.
pub(crate) const DESKTOP: Screen = Screen {
    name: "desktop",
    width: 1280,
    height: 800,
    touch: false,
};

/// A browser with a profile of its own.
pub(crate) struct Browser {
    /// The session.
    pub(crate) driver: WebDriver,
    downloads: PathBuf,
    _process: Driver,
}

impl Browser {
    /// Opens Chromium with an empty profile; `name` keeps the profiles of tests apart.
    pub(crate) async fn open(name: &str, screen: Screen) -> WebDriverResult<Self> {
        Self::open_as(Kind::Chromium, name, screen).await
    }

    /// Opens a browser of some kind with an empty profile.
    pub(crate) async fn open_as(kind: Kind, name: &str, screen: Screen) -> WebDriverResult<Self> {
        let home = env::temp_dir().join(format!("ringland-{name}-{}", std::process::id()));
        let _old = std::fs::remove_dir_all(&home);
        Self::open_at(kind, &home, screen).await
    }

    /// Opens a browser with what is in that folder from before.
    pub(crate) async fn open_at(kind: Kind, home: &Path, screen: Screen) -> WebDriverResult<Self> {
        let downloads = home.join("downloads");
        std::fs::create_dir_all(&downloads).expect("a folder for downloads");
        let process = Driver::start(kind);
        let capabilities = kind.capabilities(&home.join("profile"), &downloads, screen)?;
        let driver = WebDriver::new(process.address(), capabilities).await?;
        let browser = Self {
            driver,
            downloads,
            _process: process,
        };
        if kind == Kind::Chromium {
            let folder = download_to(&browser.downloads);
            browser.cdp("Browser.setDownloadBehavior", folder).await?;
        }
        Ok(browser)
    }

    /// A command of the browser's own protocol.
    pub(crate) async fn cdp(&self, command: &str, parameters: Value) -> WebDriverResult<Value> {
        self.driver.cdp().send_raw(command, parameters).await
    }

    /// Runs a script in the page and gives what it returns.
    pub(crate) async fn script(&self, script: &str) -> WebDriverResult<Value> {
        self.driver
            .execute(script, Vec::new())
            .await
            .map(|returned| returned.json().clone())
    }

    /// Waits until a script returns something true.
    pub(crate) async fn until(&self, what: &str, script: &str) -> WebDriverResult<()> {
        for _ in 0..1200 {
            if self.script(script).await?.as_bool() == Some(true) {
                return Ok(());
            }
            tokio::time::sleep(Duration::from_millis(25)).await;
        }
        let text = self
            .script("return document.body.innerText.slice(0, 600)")
            .await?;
        panic!("waited in vain for {what}; the page says: {text}");
    }

    /// Waits for an element.
    pub(crate) async fn find(&self, css: &str) -> WebDriverResult<WebElement> {
        self.until(
            css,
            &format!("return document.querySelector({}) !== null", json!(css)),
        )
        .await?;
        self.driver.find(By::Css(css)).await
    }

    /// Presses what a selector finds.
    pub(crate) async fn press(&self, css: &str) -> WebDriverResult<()> {
        let element = self.find(css).await?;
        element.scroll_into_view().await?;
        element.click().await
    }

    /// Presses the button or link with that text.
    pub(crate) async fn press_text(&self, text: &str) -> WebDriverResult<()> {
        let script = format!(
            "const all = [...document.querySelectorAll('button, a, summary, label')];\n\
             const seen = all.filter(e => e.offsetParent !== null && e.textContent.trim().startsWith({0}));\n\
             seen.forEach((e, i) => e.toggleAttribute('data-pressed-next', i === 0));\n\
             return seen.length > 0",
            json!(text)
        );
        // What was found may be drawn anew before it is pressed: then it is looked for again.
        for _ in 0..10 {
            self.until(&format!("a button `{text}`"), &script).await?;
            match self.press_found().await {
                Err(error) if is_gone(&error) => {}
                pressed => return pressed,
            }
        }
        self.press_found().await
    }

    async fn press_found(&self) -> WebDriverResult<()> {
        let element = self.driver.find(By::Css("[data-pressed-next]")).await?;
        element.scroll_into_view().await?;
        let found =
            "document.querySelector('[data-pressed-next]')?.removeAttribute('data-pressed-next')";
        self.script(found).await?;
        element.click().await
    }

    /// Waits until an engine of that name is on the Shelf; `[data-found]` is its card then.
    pub(crate) async fn find_engine(&self, name: &str) -> WebDriverResult<()> {
        let script = format!(
            "const all = [...document.querySelectorAll('.engine')];\n\
             const named = e => e.querySelector('.engine__name')?.textContent === {};\n\
             all.forEach(e => e.toggleAttribute('data-found', named(e)));\n\
             return all.some(named)",
            json!(name)
        );
        self.until(&format!("{name} on the Shelf"), &script).await
    }

    /// Writes a picture of the screen among the build's own files.
    pub(crate) async fn picture(&self, name: &str) -> WebDriverResult<()> {
        let folder = PathBuf::from(env::var("RINGLAND_PICTURES").unwrap_or_else(|_| {
            concat!(env!("CARGO_MANIFEST_DIR"), "/../target/pictures").to_owned()
        }));
        std::fs::create_dir_all(&folder).expect("a folder for pictures");
        self.driver
            .screenshot(&folder.join(format!("{name}.png")))
            .await
    }

    /// The first file that was saved, once it is whole.
    pub(crate) async fn saved(&self, ending: &str) -> PathBuf {
        self.saved_as("", ending).await
    }

    /// The first file of a name with that beginning and that ending that was saved, once it is whole.
    pub(crate) async fn saved_as(&self, beginning: &str, ending: &str) -> PathBuf {
        for _ in 0..400 {
            let files = std::fs::read_dir(&self.downloads).expect("the folder for downloads");
            let whole = files
                .filter_map(|entry| entry.ok().map(|entry| entry.path()))
                .find(|path| {
                    let name = path.file_name().unwrap_or_default().to_string_lossy();
                    name.starts_with(beginning) && name.ends_with(ending)
                });
            if let Some(path) = whole {
                return path;
            }
            tokio::time::sleep(Duration::from_millis(25)).await;
        }
        panic!("no file ending in {ending} was saved");
    }

    /// What `axe-core` finds wrong with the screen.
    pub(crate) async fn violations(&self) -> WebDriverResult<Vec<String>> {
        let axe = env::var("RINGLAND_AXE").expect("RINGLAND_AXE names the checker's script");
        let source = std::fs::read_to_string(axe).expect("the checker's script");
        self.driver.execute(source.as_str(), Vec::new()).await?;
        let found = self
            .driver
            .execute_async(
                "const done = arguments[0];\n\
                 axe.run(document, { resultTypes: ['violations'] }).then(\n\
                   r => done(r.violations.map(v => v.id + ': ' + v.nodes.slice(0, 4).map(n => n.html.slice(0, 160) + ' ' + n.failureSummary).join(' | '))),\n\
                   e => done(['axe: ' + e]))",
                Vec::new(),
            )
            .await?;
        Ok(serde_json::from_value(found.json().clone()).unwrap_or_default())
    }

    /// The addresses that the page loaded something from.
    pub(crate) async fn loaded(&self) -> WebDriverResult<Vec<String>> {
        let names = self
            .script("return performance.getEntriesByType('resource').map(entry => entry.name)")
            .await?;
        Ok(serde_json::from_value(names).unwrap_or_default())
    }

    /// Ends the browser.
    pub(crate) async fn close(self) -> WebDriverResult<()> {
        self.driver.quit().await
    }
}

/// Whether an element went away between being found and being pressed.
fn is_gone(error: &WebDriverError) -> bool {
    use thirtyfour::error::WebDriverErrorInner;
    matches!(
        error.as_inner(),
        WebDriverErrorInner::NoSuchElement(_) | WebDriverErrorInner::StaleElementReference(_)
    )
}
