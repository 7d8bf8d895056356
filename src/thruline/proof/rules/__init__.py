"""All rules, one a file, in folders by family. A rule knows no other rule."""
