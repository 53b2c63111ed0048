"""The threads on the shelf: natural colours, shared by all motifs so that one thread serves many of them."""

THREADS = {
    'ink': '#33302c', 'bark': '#6b4f3a', 'walnut': '#4c382b', 'oak': '#a3825a', 'straw': '#cda75a', 'wheat': '#e2c98f',
    'cream': '#f3ead6', 'honey': '#c6862b', 'russet': '#9b5433', 'scarlet': '#b5432f', 'brick': '#a65a43', 'clay': '#bd7a5c', 'dust': '#cf9f84',
    'pine': '#3a4d38', 'moss': '#55683a', 'leaf': '#78893f', 'lime': '#a3ab5a', 'sage': '#90a080', 'mist': '#b9c3a4',
    'rose': '#b9566a', 'blush': '#dd9c9b', 'shell': '#eec9bd', 'wine': '#74293f', 'fig': '#553650', 'plum': '#7d5275',
    'foxglove': '#a9609b', 'mauve': '#c797b9', 'lavender': '#8378ab', 'dusk': '#5b5488', 'pool': '#4d7c7a',
    'copper green': '#7fa395', 'slate': '#5f6a70', 'pewter': '#8f9896', 'stone': '#aaa08d', 'chalk': '#cbc2b0',
}
