"""All rules, one a file, in folders by family. None imports another."""
