//! Ringland: stats.
