//! What is set on this tablet: language, units, theme, raters, the device's id. In local storage.

use std::cell::Cell;

use gloo_storage::{LocalStorage, Storage};
use leptos::prelude::*;
use ringland_card::{CardId, DeviceId};
use ringland_report::{
    format::UnitPrefs,
    words::{Language, Words, words},
};
use serde::{Deserialize, Serialize};

use crate::platform;

/// How the screen looks.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Theme {
    /// As the tablet says.
    #[default]
    Auto,
    /// Light.
    Light,
    /// Dark.
    Dark,
    /// Black on white and heavy, for a yard in full sun.
    Sun,
}

impl Theme {
    /// Every theme, in the order in which they are offered.
    pub const ALL: [Self; 4] = [Self::Auto, Self::Light, Self::Dark, Self::Sun];

    /// What it is called.
    pub fn name(self, words: &Words) -> &'static str {
        let common = &words.common;
        match self {
            Self::Auto => common.auto,
            Self::Light => common.light,
            Self::Dark => common.dark,
            Self::Sun => common.sun,
        }
    }

    /// The one offered after it; after the last comes the first.
    #[must_use]
    pub fn next(self) -> Self {
        match self {
            Self::Auto => Self::Light,
            Self::Light => Self::Dark,
            Self::Dark => Self::Sun,
            Self::Sun => Self::Auto,
        }
    }

    /// The value of the page's `data-theme`.
    pub fn as_str(self) -> &'static str {
        match self {
            Self::Auto => "auto",
            Self::Light => "light",
            Self::Dark => "dark",
            Self::Sun => "sun",
        }
    }
}

/// The way the hands go on the Bench.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Walk {
    /// One characteristic along the engine, then the next.
    #[default]
    AlongEngine,
    /// Everything in one position, then the next position.
    ByPosition,
}

#[derive(Clone, Debug, Default, Serialize, Deserialize)]
#[serde(default)]
struct Settings {
    /// The tag of the language chosen; empty until one is, and the browser's holds.
    language: String,
    theme: Theme,
    walk: Walk,
    units: UnitPrefs,
    raters: Vec<String>,
    rater: String,
    /// What others said stays hidden until one's own look is in.
    blind: bool,
    /// Demo engines are put on the Shelf once.
    demo_seen: bool,
    last_backup_ms: Option<i64>,
    /// When this tablet first had engines on it.
    began_ms: Option<i64>,
    /// Each engine in a backup, with how many of its entries: counted, as clocks go wrong.
    backed_up: Vec<String>,
    /// How many engines the database has.
    engines: usize,
    /// The browser has been asked once to keep what is stored.
    asked_to_stay: bool,
}

const SETTINGS: &str = "ringland.settings";
const DEVICE: &str = "ringland.device";

/// A `Copy` handle on the settings.
#[derive(Clone, Copy, Debug)]
pub struct Prefs {
    settings: RwSignal<Settings>,
    device: DeviceId,
}

/// Provides the settings to everything below.
pub fn provide_prefs() -> Prefs {
    let device = LocalStorage::get::<DeviceId>(DEVICE).unwrap_or_else(|_none| {
        let made = platform::device_id();
        // Where nothing can be kept, each start is a device of its own: entries stay apart.
        let _kept = LocalStorage::set(DEVICE, made);
        made
    });
    let settings = RwSignal::new(read().unwrap_or_default());
    Effect::new(move || {
        settings.with(|settings| {
            let _kept = LocalStorage::set(SETTINGS, settings);
        });
    });
    // Another tab has set something: this one goes on from there, and does not set it back.
    let _heard = window_event_listener(leptos::ev::storage, move |_| {
        if let Some(set) = read() {
            settings.set(set);
        }
    });
    let prefs = Prefs { settings, device };
    provide_context(prefs);
    prefs
}

/// What was set before.
#[inline(never)]
fn read() -> Option<Settings> {
    LocalStorage::get(SETTINGS).ok()
}

/// The settings.
pub fn use_prefs() -> Prefs {
    expect_context()
}

thread_local! {
    /// The language on the screen. Words are wanted where no signal can be followed, too: in what is
    /// done after a press and in what comes back from the database.
    static SPOKEN: Cell<Language> = const { Cell::new(Language::English) };
}

/// The words of the language on the screen. It changes only with the whole view, so that what was
/// made with the words of one language never stands beside those of another.
pub fn use_words() -> &'static Words {
    words(SPOKEN.get())
}

/// Puts the words of a language on the screen, for what is made from here on.
pub fn speak(language: Language) {
    SPOKEN.set(language);
}

impl Prefs {
    /// This tablet's id.
    pub fn device(self) -> DeviceId {
        self.device
    }

    /// The language: the one chosen here, else the first of the browser's that there are words in.
    pub fn language(self) -> Language {
        self.settings
            .with(|s| Language::of_tag(&s.language))
            .or_else(platform::language)
            .unwrap_or_default()
    }

    /// Sets the language.
    pub fn set_language(self, language: Language) {
        self.settings
            .update(|s| language.tag().clone_into(&mut s.language));
    }

    /// The theme.
    pub fn theme(self) -> Theme {
        self.settings.with(|s| s.theme)
    }

    /// Sets the theme.
    pub fn set_theme(self, theme: Theme) {
        self.settings.update(|s| s.theme = theme);
    }

    /// The way the hands go.
    pub fn walk(self) -> Walk {
        self.settings.with(|s| s.walk)
    }

    /// Sets the way the hands go.
    pub fn set_walk(self, walk: Walk) {
        self.settings.update(|s| s.walk = walk);
    }

    /// The units shown.
    pub fn units(self) -> UnitPrefs {
        self.settings.with(|s| s.units)
    }

    /// Sets the units shown.
    pub fn set_units(self, units: UnitPrefs) {
        self.settings.update(|s| s.units = units);
    }

    /// Who rates now; empty until somebody said so.
    pub fn rater(self) -> String {
        self.settings.with(|s| s.rater.clone())
    }

    /// Who has rated on this tablet.
    pub fn raters(self) -> Vec<String> {
        self.settings.with(|s| s.raters.clone())
    }

    /// Sets who rates now.
    pub fn set_rater(self, name: &str) {
        let name = name.trim().to_owned();
        if name.is_empty() {
            return;
        }
        self.settings.update(|s| {
            if !s.raters.contains(&name) {
                s.raters.push(name.clone());
            }
            s.rater = name;
        });
    }

    /// Who rates blind; none where nobody does.
    pub fn blind(self) -> Option<String> {
        self.settings
            .with(|s| (s.blind && !s.rater.is_empty()).then(|| s.rater.clone()))
    }

    /// Whether raters rate blind on this tablet.
    pub fn rates_blind(self) -> bool {
        self.settings.with(|s| s.blind)
    }

    /// Sets whether they do.
    pub fn set_blind(self, blind: bool) {
        self.settings.update(|s| s.blind = blind);
    }

    /// Takes a name off the list of who has rated on this tablet; what they wrote stays theirs.
    pub fn forget_rater(self, name: &str) {
        self.settings.update(|s| {
            s.raters.retain(|known| known != name);
            if s.rater == name {
                s.rater = s.raters.first().cloned().unwrap_or_default();
            }
        });
    }

    /// Whether the browser has been asked once to keep what is stored.
    pub fn asked_to_stay(self) -> bool {
        self.settings.with_untracked(|s| s.asked_to_stay)
    }

    /// Remembers that it has.
    pub fn set_asked_to_stay(self) {
        self.settings.update(|s| s.asked_to_stay = true);
    }

    /// Whether the demo engines have been put on the Shelf once.
    pub fn demo_seen(self) -> bool {
        self.settings.with_untracked(|s| s.demo_seen)
    }

    /// Remembers that they have.
    pub fn set_demo_seen(self) {
        let now = platform::now().as_millisecond();
        self.settings.update(|s| {
            s.demo_seen = true;
            s.began_ms = Some(now);
        });
    }

    /// How many engines the database had when it was last read.
    pub fn engines(self) -> usize {
        self.settings.with_untracked(|s| s.engines)
    }

    /// Remembers how many.
    pub fn set_engines(self, engines: usize) {
        if self.engines() != engines {
            self.settings.update(|s| s.engines = engines);
        }
    }

    /// Whether that many entries of an engine are in a backup, or come with the program.
    pub fn is_backed_up(self, card: CardId, entries: usize) -> bool {
        let line = format!("{card} {entries}");
        self.settings.with(|s| s.backed_up.contains(&line))
    }

    /// Remembers of each of these engines that so many entries are.
    pub fn set_backed_up(self, engines: Vec<(CardId, usize)>) {
        self.settings.update(|s| {
            for (card, entries) in engines {
                let card = card.to_string();
                s.backed_up.retain(|line| !line.starts_with(&card));
                s.backed_up.push(format!("{card} {entries}"));
            }
        });
    }

    /// When this tablet first had engines on it, milliseconds since 1970.
    pub fn began_ms(self) -> Option<i64> {
        self.settings.with(|s| s.began_ms)
    }

    /// When everything was last backed up, milliseconds since 1970.
    pub fn last_backup_ms(self) -> Option<i64> {
        self.settings.with(|s| s.last_backup_ms)
    }

    /// Remembers when.
    pub fn set_last_backup(self, unix_ms: i64) {
        self.settings.update(|s| s.last_backup_ms = Some(unix_ms));
    }
}
