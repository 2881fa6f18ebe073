//! What would make the page stand still: it runs beside it, in a worker. It holds no maths and no words.
//!
//! `app/web/worker.js` hands each message of the page to one of these and sends back what comes of it. What
//! passes is numbers and bytes: reading JSON would make the worker more than twice as heavy.

mod plate;

pub use plate::Plate;
