//! Parts of the page that follow what they read.
//!
//! Leptos makes the code that keeps a part up to date anew for each type it is given, and every
//! closure is a type. Passed through here they are all of one type, and the app is carried to a
//! tablet with that code once.

use std::sync::{Arc, Mutex};

use leptos::{prelude::*, tachys::reactive_graph::SharedReactiveFunction};

/// A part of the page that is made anew whenever something it reads has changed.
pub fn live<V: IntoView + 'static>(
    part: impl Fn() -> V + Send + 'static,
) -> SharedReactiveFunction<AnyView> {
    Arc::new(Mutex::new(move || part().into_any()))
}
