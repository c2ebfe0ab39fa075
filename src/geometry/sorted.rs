//! Putting short lists in order.

use core::cmp::Ordering;

/// Puts a list of up to some hundred things in order; equal ones keep theirs.
///
/// By insertion: the standard library's way is faster for long lists, and some kilobytes of code for each kind of thing,
/// which every first visit loads.
pub fn sort_short<T>(list: &mut [T], compare: impl Fn(&T, &T) -> Ordering) {
    for end in 1..list.len() {
        let mut at = end;
        while at > 0 && compare(&list[at - 1], &list[at]).is_gt() {
            list.swap(at - 1, at);
            at -= 1;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::sort_short;

    /// Against the standard library.
    #[test]
    fn lists_come_in_order_and_equals_stay() {
        let mut list: Vec<(u32, usize)> = (0..200).map(|i| (i * 7919 % 23, i as usize)).collect();
        let mut expected = list.clone();
        expected.sort_by_key(|(key, _)| *key);
        sort_short(&mut list, |a, b| a.0.cmp(&b.0));
        assert_eq!(list, expected);
        sort_short(&mut [(); 0], |(), ()| core::cmp::Ordering::Equal);
    }
}
