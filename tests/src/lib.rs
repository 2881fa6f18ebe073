//! End-to-end tests, the demo engines that they and the app open, and what must hold for any bytes.

pub mod demo;
pub mod hostile;
