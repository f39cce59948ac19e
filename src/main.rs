fn main() {
    println!("hi");
}
