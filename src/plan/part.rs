//! A part of a plan that copies of the plan share until one of them changes it.

use crate::json::{Json, ReadError};
use std::ops::{Deref, DerefMut};
use std::rc::Rc;

/// A part of a plan. A step of a drag and a step of undo copy the plan: what they leave alone is not copied.
#[derive(Clone, Debug, Default)]
pub struct Part<T>(Rc<T>);

impl<T: PartialEq> PartialEq for Part<T> {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.0, &other.0) || self.0 == other.0
    }
}

impl<T> Deref for Part<T> {
    type Target = T;
    fn deref(&self) -> &T {
        &self.0
    }
}

impl<T: Clone> DerefMut for Part<T> {
    /// The part to change: from here on it is this plan's own.
    fn deref_mut(&mut self) -> &mut T {
        Rc::make_mut(&mut self.0)
    }
}

impl<T> From<T> for Part<T> {
    fn from(part: T) -> Self {
        Self(Rc::new(part))
    }
}

impl<'a, T> IntoIterator for &'a Part<Vec<T>> {
    type Item = &'a T;
    type IntoIter = core::slice::Iter<'a, T>;
    fn into_iter(self) -> Self::IntoIter {
        self.0.iter()
    }
}

impl<'a, T: Clone> IntoIterator for &'a mut Part<Vec<T>> {
    type Item = &'a mut T;
    type IntoIter = core::slice::IterMut<'a, T>;
    fn into_iter(self) -> Self::IntoIter {
        self.iter_mut()
    }
}

impl<T: Json + Clone> Json for Part<T> {
    fn read(&mut self, value: serde_json::Value) -> Result<(), ReadError> {
        (**self).read(value)
    }
    fn write(&self) -> serde_json::Value {
        (**self).write()
    }
}

#[cfg(test)]
mod tests {
    use super::Part;

    #[test]
    fn a_copy_is_changed_alone() {
        let first = Part::from(vec![1, 2]);
        let mut second = first.clone();
        assert!(std::ptr::eq(&*first, &*second), "shared until it is changed");
        second.push(3);
        assert_eq!((first.as_slice(), second.as_slice()), (&[1, 2][..], &[1, 2, 3][..]));
        second.pop();
        assert_eq!(first, second);
    }
}
