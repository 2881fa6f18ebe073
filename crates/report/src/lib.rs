//! Ringland: report.
