//! The browsers that the tests drive: gets what is missing.
use std::path::PathBuf;

use anyhow::{Context, Result};

use crate::apt;
use crate::run::{cargo, program, run};
use crate::workspace::Workspace;

/// Firefox's driver: a Rust program, which the registry of crates has.
const GECKODRIVER: &str = "0.37.1";

/// Where Debian keeps WebKit's own little browser.
const MINIBROWSER: &str = "/usr/lib/x86_64-linux-gnu/webkit2gtk-4.1/MiniBrowser";

/// A browser and the program that drives it.
#[derive(Debug, Clone)]
pub struct Browser {
    /// The browser.
    pub browser: PathBuf,
    /// Its driver.
    pub driver: PathBuf,
}

impl Browser {
    /// Finds Chromium and its driver, or installs Debian's.
    ///
    /// # Errors
    /// Where they are missing and cannot be installed.
    pub fn chromium() -> Result<Self> {
        if Self::find().is_none() {
            // A bare system has no fonts, and screenshots without letters show nothing.
            let packages = ["chromium", "chromium-driver", "fonts-liberation"];
            apt::ensure("Chromium and its driver", &packages)?;
        }
        Self::find().context(
            "no Chromium and chromedriver on the search path. By hand: install both, \
             of one version, or set CHROMIUM and CHROMEDRIVER to where they are",
        )
    }

    fn find() -> Option<Self> {
        let names = [
            "chromium",
            "chromium-browser",
            "google-chrome",
            "google-chrome-stable",
        ];
        Some(Self {
            browser: given("CHROMIUM").or_else(|| program(&names))?,
            driver: given("CHROMEDRIVER").or_else(|| program(&["chromedriver"]))?,
        })
    }

    /// What a `WebDriver` session is asked for: this browser, quiet, and asking nobody for updates.
    pub fn capabilities(&self) -> serde_json::Value {
        serde_json::json!({
            "goog:chromeOptions": {
                "binary": self.browser,
                "args": [
                    "--headless=new", "--no-sandbox", "--disable-gpu", "--disable-quic",
                    "--no-first-run", "--disable-background-networking",
                    "--disable-component-update", "--disable-sync", "--disable-dev-shm-usage",
                ],
            },
        })
    }
}

/// Firefox and its driver.
///
/// # Errors
/// Where one is missing and cannot be had.
pub fn firefox(ws: &Workspace) -> Result<Browser> {
    let names = ["firefox-esr", "firefox"];
    if given("FIREFOX").is_none() && program(&names).is_none() {
        apt::ensure("Firefox", &["firefox-esr"])?;
    }
    Ok(Browser {
        browser: given("FIREFOX")
            .or_else(|| program(&names))
            .context("no Firefox on the search path. By hand: install it, or set FIREFOX")?,
        driver: match given("GECKODRIVER").or_else(|| program(&["geckodriver"])) {
            Some(driver) => driver,
            None => geckodriver(ws)?,
        },
    })
}

fn geckodriver(ws: &Workspace) -> Result<PathBuf> {
    let folder = ws.target("tools");
    let driver = folder.join(format!("bin/geckodriver{}", std::env::consts::EXE_SUFFIX));
    if !driver.is_file() {
        run(
            "building Firefox's driver (about a minute)",
            cargo()
                .args(["install", "geckodriver", "--quiet", "--locked", "--debug"])
                .args(["--version", GECKODRIVER, "--root"])
                .arg(&folder),
        )?;
    }
    Ok(driver)
}

/// WebKit's own little browser, its driver, and a screen for it to draw on.
///
/// # Errors
/// Where one is missing and cannot be had.
pub fn webkit() -> Result<Browser> {
    let found = || {
        let browser = given("MINIBROWSER").unwrap_or_else(|| MINIBROWSER.into());
        let driver = given("WEBKITDRIVER").or_else(|| program(&["WebKitWebDriver"]))?;
        program(&["Xvfb"])?;
        browser.is_file().then_some(Browser { browser, driver })
    };
    if found().is_none() {
        apt::ensure("WebKit and a screen for it", &["webkit2gtk-driver", "xvfb"])?;
    }
    found().with_context(|| {
        format!(
            "no WebKitWebDriver, {MINIBROWSER} and Xvfb. By hand: install them, \
             or set WEBKITDRIVER and MINIBROWSER"
        )
    })
}

fn given(name: &str) -> Option<PathBuf> {
    std::env::var_os(name).map(PathBuf::from)
}
