//! The browsers, each with its driver process and what a session is asked for.

use std::{
    env,
    net::{TcpListener, TcpStream},
    path::Path,
    process::{Child, Command, Stdio},
    time::Duration,
};

use serde_json::{Value, json};
use thirtyfour::{
    Capabilities, ChromeCapabilities, ChromiumLikeCapabilities, FirefoxCapabilities,
    common::capabilities::firefox::FirefoxPreferences, error::WebDriverResult,
};

use super::Screen;

/// A browser that Ringland is tried in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Kind {
    /// Chromium.
    Chromium,
    /// Firefox, its long-term version.
    Firefox,
    /// WebKit's own little browser: the nearest to the tablets' other browser.
    WebKit,
}

impl Kind {
    /// Its name in messages and folders.
    pub(crate) fn name(self) -> &'static str {
        match self {
            Self::Chromium => "chromium",
            Self::Firefox => "firefox",
            Self::WebKit => "webkit",
        }
    }

    /// The variable that names its driver, and the driver's usual name.
    fn driver(self) -> (&'static str, &'static str) {
        match self {
            Self::Chromium => ("CHROMEDRIVER", "chromedriver"),
            Self::Firefox => ("GECKODRIVER", "geckodriver"),
            Self::WebKit => ("WEBKITDRIVER", "WebKitWebDriver"),
        }
    }

    /// What a session is asked for.
    pub(super) fn capabilities(
        self,
        profile: &Path,
        downloads: &Path,
        screen: Screen,
    ) -> WebDriverResult<Capabilities> {
        match self {
            Self::Chromium => chromium(profile, screen).map(Capabilities::from),
            Self::Firefox => firefox(downloads, screen).map(Capabilities::from),
            Self::WebKit => webkit(),
        }
    }
}

fn chromium(profile: &Path, screen: Screen) -> WebDriverResult<ChromeCapabilities> {
    let mut capabilities = ChromeCapabilities::new();
    if let Ok(chromium) = env::var("CHROMIUM") {
        capabilities.set_binary(&chromium)?;
    }
    for argument in [
        "--headless=new",
        "--no-sandbox",
        "--disable-gpu",
        "--disable-quic",
        "--no-first-run",
        "--disable-background-networking",
        "--disable-component-update",
        "--disable-sync",
        "--disable-dev-shm-usage",
        "--lang=en-GB",
    ] {
        capabilities.add_arg(argument)?;
    }
    capabilities.add_arg(&format!("--user-data-dir={}", profile.display()))?;
    capabilities.add_arg(&format!("--window-size={},{}", screen.width, screen.height))?;
    if screen.touch {
        capabilities.add_experimental_option(
            "mobileEmulation",
            json!({ "deviceMetrics": {
                "width": screen.width, "height": screen.height,
                "pixelRatio": 1.0, "touch": true, "mobile": true,
            }}),
        )?;
    }
    Ok(capabilities)
}

fn firefox(downloads: &Path, screen: Screen) -> WebDriverResult<FirefoxCapabilities> {
    let mut capabilities = FirefoxCapabilities::new();
    if let Ok(firefox) = env::var("FIREFOX") {
        capabilities.set_firefox_binary(&firefox)?;
    }
    capabilities.add_arg("-headless")?;
    capabilities.add_arg(&format!("--width={}", screen.width))?;
    capabilities.add_arg(&format!("--height={}", screen.height))?;
    let mut preferences = FirefoxPreferences::new();
    preferences.set("browser.download.folderList", 2)?;
    preferences.set("browser.download.dir", downloads.to_string_lossy())?;
    preferences.set("browser.download.useDownloadDir", true)?;
    preferences.set(
        "browser.download.always_ask_before_handling_new_types",
        false,
    )?;
    preferences.set(
        "browser.helperApps.neverAsk.saveToDisk",
        "application/json,text/html,application/octet-stream",
    )?;
    preferences.set("intl.accept_languages", "en-GB")?;
    // As people have it; the driver would allow more.
    preferences.set("security.fileuri.strict_origin_policy", true)?;
    capabilities.set_preferences(preferences)?;
    Ok(capabilities)
}

fn webkit() -> WebDriverResult<Capabilities> {
    let browser = env::var("MINIBROWSER")
        .unwrap_or_else(|_| "/usr/lib/x86_64-linux-gnu/webkit2gtk-4.1/MiniBrowser".to_owned());
    let mut capabilities = Capabilities::new();
    capabilities.set(
        "webkitgtk:browserOptions",
        json!({ "binary": browser, "args": ["--automation"] }),
    )?;
    Ok(capabilities)
}

/// A driver process on a free port, and the screen that it draws on where it needs one; both ended
/// when it goes out of scope.
pub(super) struct Driver {
    children: Vec<Child>,
    port: u16,
}

impl Driver {
    pub(super) fn start(kind: Kind) -> Self {
        let port = free_port();
        let (variable, usual) = kind.driver();
        let program = env::var(variable).unwrap_or_else(|_| usual.to_owned());
        let mut driver = Command::new(&program);
        driver.arg(format!("--port={port}"));
        let mut children = Vec::new();
        if kind == Kind::WebKit {
            // The number of a screen is a small one that no other test uses.
            let screen = format!(":{}", 100 + u32::from(port) % 20_000);
            children.push(quiet(
                Command::new("Xvfb").args([&screen, "-screen", "0", "1280x900x24"]),
                "Xvfb",
            ));
            wait_for(|| Path::new(&format!("/tmp/.X11-unix/X{}", &screen[1..])).exists());
            driver
                .env("DISPLAY", &screen)
                .env("WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS", "1")
                .env("WEBKIT_DISABLE_COMPOSITING_MODE", "1")
                .env("LANG", "C.UTF-8");
        }
        children.insert(0, quiet(&mut driver, &program));
        wait_for(|| TcpStream::connect(("127.0.0.1", port)).is_ok());
        Self { children, port }
    }

    pub(super) fn address(&self) -> String {
        format!("http://127.0.0.1:{}", self.port)
    }
}

impl Drop for Driver {
    fn drop(&mut self) {
        for child in &mut self.children {
            let _ended = child.kill();
            let _reaped = child.wait();
        }
    }
}

fn quiet(command: &mut Command, name: &str) -> Child {
    command
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn()
        .unwrap_or_else(|error| panic!("{name} does not start: {error}"))
}

fn wait_for(there: impl Fn() -> bool) {
    for _ in 0..200 {
        if there() {
            return;
        }
        std::thread::sleep(Duration::from_millis(25));
    }
}

fn free_port() -> u16 {
    TcpListener::bind("127.0.0.1:0")
        .and_then(|listener| listener.local_addr())
        .expect("a free port")
        .port()
}

/// What Chromium is told about where to save files.
pub(super) fn download_to(folder: &Path) -> Value {
    json!({ "behavior": "allow", "downloadPath": folder, "eventsEnabled": false })
}
