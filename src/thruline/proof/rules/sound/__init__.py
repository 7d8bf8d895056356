"""Does the sound go where it should: the audio path and its loops."""
