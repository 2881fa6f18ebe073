//! Ringland: assess.
