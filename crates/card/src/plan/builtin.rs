//! The built-in plan.
