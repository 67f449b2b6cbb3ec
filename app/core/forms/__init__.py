"""Parametric builds, one per file.

A form module gives ``TITLE``, ``SUMMARY``, a frozen dataclass ``Inputs`` whose
fields are made with ``app.core.inputs.ask``, and
``design(inputs: Inputs, shop: Shop) -> Design``.
"""
