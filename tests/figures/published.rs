fn placeholder() {}
