//! Lists put in order.
//!
//! The library's sorts are made for long lists, and each kind of list brings several kilobytes of them.
//! The lists of the app are short and mostly in order already.

/// Puts a list in the order of a key; things of the same key stay in the order they were in.
pub fn by_key<T, K: Ord>(list: impl IntoIterator<Item = T>, key: impl Fn(&T) -> K) -> Vec<T> {
    let mut ordered: Vec<T> = Vec::new();
    for one in list {
        let its = key(&one);
        let place = ordered.partition_point(|other| key(other) <= its);
        ordered.insert(place, one);
    }
    ordered
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_list_is_put_in_order_and_equals_stay_as_they_were() {
        let list = [(2, 'a'), (1, 'b'), (2, 'c'), (0, 'd'), (1, 'e')];
        let ordered = by_key(list, |(number, _)| *number);
        assert_eq!(ordered, [(0, 'd'), (1, 'b'), (1, 'e'), (2, 'a'), (2, 'c')]);
    }
}
