"""The planner: pure Python, no clock, files, network, threads or chance. The same files run on the phone."""

ENGINE_VERSION = "1"
