#!/usr/bin/env python3
"""Draws the demo scenes: shapes of our own, turned into needle lists, put together to scene files. Python's own library is
all it needs, and it always writes the same files: python3 make-demo.py [garden | orchard]"""
import os
import sys

HERE = os.path.dirname(os.path.abspath(__file__))
sys.path.insert(0, HERE)
sys.dont_write_bytecode = True

from needlework import garden, orchard  # noqa: E402

if __name__ == '__main__':
    for scene in (garden, orchard):
        if len(sys.argv) == 1 or scene.__name__.endswith(sys.argv[1]):
            scene.write(HERE)
