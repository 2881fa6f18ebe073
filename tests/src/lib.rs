//! End-to-end tests, and the demo engines that they and the app open.

pub mod demo;
