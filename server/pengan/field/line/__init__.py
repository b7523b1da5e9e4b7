"""How a made-up field is heard: over HTTP, over MQTT, or as lines of text; in real time or faster."""
