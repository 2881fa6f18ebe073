//! Ringland: card.
