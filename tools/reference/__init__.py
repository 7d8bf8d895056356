"""The pages made from the code, one kind of page a module.

Each module has `pages()`, which yields names below docs/reference and Markdown texts. What it
yields may depend on nothing but the code: no date, no version of a library, no order of a file
system.
"""
