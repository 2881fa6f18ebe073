//! Long work in slices: after each the browser may draw, hear a key or a finger, and stop it.

use std::task::Poll;

use js_sys::Promise;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::JsFuture;
use web_sys::MessageChannel;

/// How long a slice is, in milliseconds: below what an eye sees as standing still.
const SLICE_MS: f64 = 40.0;

/// How many bytes of a file are read or written before the clock is looked at again.
const STEP: usize = 64 << 10;

/// How much of the work on a card that comes in is reading it; the rest is keeping it.
pub const READ_SHARE: f64 = 0.2;

/// Somebody has stopped the work.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stopped;

/// Work being done in slices.
///
/// The core knows no clock: it says what can be done a little at a time, and here is decided how much of
/// it fits into a slice.
#[derive(Clone, Copy, Debug)]
pub struct Slices {
    until: f64,
    stop: Option<RwSignal<bool>>,
    share: Option<RwSignal<f64>>,
}

/// With nobody to stop it.
impl Default for Slices {
    fn default() -> Self {
        Self {
            until: now() + SLICE_MS,
            stop: None,
            share: None,
        }
    }
}

impl Slices {
    /// Until that becomes true, telling how much is done, from 0 to 1.
    pub fn until(stop: RwSignal<bool>, share: RwSignal<f64>) -> Self {
        Self {
            stop: Some(stop),
            share: Some(share),
            ..Self::default()
        }
    }

    /// Tells how much is done, from 0 to 1.
    pub fn tell(&self, share: f64) {
        if let Some(told) = self.share {
            let _left = told.try_set(share);
        }
    }

    /// Whether the slice is over.
    pub fn is_over(&self) -> bool {
        now() >= self.until
    }

    /// Begins the next slice, where the browser has had its turn already.
    ///
    /// # Errors
    ///
    /// [`Stopped`] when somebody has stopped it.
    pub fn begin(&mut self) -> Result<(), Stopped> {
        self.until = now() + SLICE_MS;
        // Where the page was left that could stop it, it goes on.
        match self.stop.and_then(|stop| stop.try_get_untracked()) {
            Some(true) => Err(Stopped),
            _ => Ok(()),
        }
    }

    /// Gives the browser its turn if the slice is over.
    ///
    /// # Errors
    ///
    /// [`Stopped`] when somebody has stopped it.
    pub async fn turn(&mut self) -> Result<(), Stopped> {
        if !self.is_over() {
            return Ok(());
        }
        breathe().await;
        self.begin()
    }

    /// Does something step by step, each of about so many bytes as it is given, until it is done.
    ///
    /// # Errors
    ///
    /// [`Stopped`] when somebody has stopped it.
    pub async fn run<T>(&mut self, mut step: impl FnMut(usize) -> Poll<T>) -> Result<T, Stopped> {
        let mut done = None;
        let mut is_done = || match step(STEP) {
            Poll::Ready(it) => {
                done = Some(it);
                true
            }
            Poll::Pending => false,
        };
        self.drive(&mut is_done).await?;
        done.ok_or(Stopped)
    }

    /// The same for whatever it is that is done: in the app there is one of this and not one for each.
    async fn drive(&mut self, is_done: &mut dyn FnMut() -> bool) -> Result<(), Stopped> {
        while !is_done() {
            self.turn().await?;
        }
        Ok(())
    }
}

fn now() -> f64 {
    let clock = window().performance();
    clock.map_or_else(js_sys::Date::now, |clock| clock.now())
}

/// Lets the browser do what it has to. By a message, as timers are slowed down where the page is not
/// looked at.
async fn breathe() {
    let turn: Promise = Promise::new(&mut |done, _| {
        if let Ok(channel) = MessageChannel::new() {
            channel.port1().set_onmessage(Some(done.unchecked_ref()));
            if channel.port2().post_message(&true.into()).is_ok() {
                return;
            }
        }
        let _called = done.call0(&true.into());
    });
    let _turned = JsFuture::from(turn).await;
}
