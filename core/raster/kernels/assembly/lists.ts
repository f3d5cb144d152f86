// Lists of 32-bit numbers.

// @ts-ignore: decorator
@inline
export function at(list: usize, i: i32): i32 {
  return load<i32>(list + (<usize>i << 2));
}

// @ts-ignore: decorator
@inline
export function put(list: usize, i: i32, value: i32): void {
  store<i32>(list + (<usize>i << 2), value);
}

// @ts-ignore: decorator
@inline
export function more(list: usize, i: i32, by: i32): void {
  put(list, i, at(list, i) + by);
}
