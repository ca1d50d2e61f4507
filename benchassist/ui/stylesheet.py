"""The style sheet, with the names of `Colours` where its colours go."""

SHEET = """
QMainWindow, QDialog { background: $paper; }
QToolTip { background: $raised; color: $ink; border: 1px solid $outline; padding: 6px 8px; }

QFrame[role="panel"] { background: $panel; border: none; }
QFrame[role="strip"] { background: $paper; border: none; border-bottom: 1px solid $line; }
QFrame[role="rail"] { background: $paper; border: none; border-right: 1px solid $line; }
QFrame[role="ask"] { background: $raised; border: none; border-top: 1px solid $line; }
QFrame[role="hint"] { background: $panel; border: none; border-left: 1px solid $line; }
QFrame[role="caution"] { background: $caution_ground; border: none; }
QFrame[role="caution"] { border-left: 4px solid $caution_bar; }
QFrame[role="line"] { background: $line; border: none; min-height: 1px; max-height: 1px; }

QLabel { background: transparent; color: $ink; }
QLabel[role="title"] { font-size: 22px; font-weight: 600; }
QLabel[role="lead"] { font-size: 17px; font-weight: 600; }
QLabel[role="heading"] { font-size: 15px; font-weight: 600; }
QLabel[role="caption"], QLabel[role="unit"] { font-size: 13px; color: $ink_soft; }
QLabel[role="sentence"] { font-size: 15px; color: $ink; }
QLabel[role="error"] { font-size: 13px; color: $outside; }
QLabel[verdict="outside"] { color: $outside; }
QLabel[verdict="close"] { color: $close; }
QLabel[role="accent"] { color: $accent; font-weight: 600; }
QLabel:disabled { color: $none; }

QLineEdit, QPlainTextEdit, QTextEdit, QComboBox, QDateEdit {
  background: $raised; color: $ink; border: 1px solid $outline; border-radius: 6px;
  padding: 6px 9px; selection-background-color: $accent; selection-color: $on_accent;
}
QLineEdit:focus, QPlainTextEdit:focus, QTextEdit:focus, QComboBox:focus, QDateEdit:focus {
  border: 2px solid $accent; padding: 5px 8px;
}
QLineEdit:disabled, QComboBox:disabled { background: $paper; color: $none; }
QLineEdit { placeholder-text-color: $ink_soft; }
QLineEdit:read-only { background: $panel; border-color: $line; }
QLineEdit[role="reading"] {
  font-size: 30px; font-weight: 600; border-radius: 8px; padding: 5px 11px;
  qproperty-alignment: "AlignRight | AlignVCenter";
}
QLineEdit[role="reading"]:focus { padding: 4px 10px; }
QLineEdit[state="bad"] { border: 2px solid $outside; padding: 5px 8px; }
QLineEdit[role="reading"][state="bad"] { padding: 4px 10px; }

QPushButton {
  background: $raised; color: $ink; border: 1px solid $outline; border-radius: 6px;
  padding: 6px 15px; min-height: 22px;
}
QPushButton:hover { background: $accent_soft; }
QPushButton:pressed { border-color: $accent; }
QPushButton:focus { border: 2px solid $accent; padding: 5px 14px; }
QPushButton:disabled { background: $paper; color: $none; border-color: $line; }
QPushButton[role="primary"] {
  background: $accent; color: $on_accent; border: 1px solid $accent; font-weight: 600;
}
QPushButton[role="primary"]:focus { border: 2px solid $ink; }
QPushButton[role="primary"]:disabled { background: $paper; color: $none; border-color: $line; }
QPushButton[role="quiet"] {
  background: transparent; color: $accent; border: 1px solid transparent; padding: 6px 9px;
}
QPushButton[role="quiet"]:hover { background: $accent_soft; }
QPushButton[role="quiet"]:focus { border: 2px solid $accent; padding: 5px 8px; }
QPushButton[role="quiet"]:disabled { color: $none; }
QPushButton[role="choice"]:checked {
  background: $accent_soft; color: $ink; border: 2px solid $accent; font-weight: 600;
  padding: 5px 14px;
}
QPushButton[role="choice"]:checked:focus { border: 2px solid $ink; }

QCheckBox, QRadioButton { spacing: 8px; color: $ink; padding: 2px; border-radius: 4px; }
QCheckBox:focus, QRadioButton:focus { border: 2px solid $accent; padding: 0px; }
QCheckBox:disabled, QRadioButton:disabled { color: $none; }
QCheckBox::indicator, QRadioButton::indicator {
  width: 16px; height: 16px; background: $raised; border: 1px solid $outline;
}
QCheckBox::indicator { border-radius: 4px; }
QRadioButton::indicator { border-radius: 9px; }
QCheckBox::indicator:checked, QRadioButton::indicator:checked {
  background: $accent; border-color: $accent;
}
QCheckBox::indicator:checked { image: url("$tick"); }
QRadioButton::indicator:checked { image: url("$dot"); }
QCheckBox::indicator:disabled, QRadioButton::indicator:disabled { background: $line; }

QComboBox::drop-down { border: none; width: 24px; subcontrol-position: center right; }
QComboBox::down-arrow { image: url("$chevron"); width: 16px; height: 16px; }
QAbstractItemView {
  background: $raised; color: $ink; border: 1px solid $line; outline: none;
  selection-background-color: $accent_soft; selection-color: $ink;
}
QListWidget { padding: 1px; }
QListWidget:focus { padding: 0; }
QAbstractItemView:focus { border: 2px solid $accent; }
QListView::item { padding: 6px 8px; }
QAbstractItemView::item:selected { background: $accent_soft; color: $ink; }
QListView[role="rail"] { background: transparent; border: none; }
QTableView::item { padding: 0 5px; }
QHeaderView, QHeaderView:focus { background: $paper; border: none; }
QHeaderView::section { background: $paper; color: $ink_soft; padding: 6px 8px; }
QHeaderView::section { border: none; border-bottom: 1px solid $line; }

QScrollArea { background: transparent; border: none; }
QScrollBar:vertical { background: transparent; width: 10px; margin: 0; }
QScrollBar:horizontal { background: transparent; height: 10px; margin: 0; }
QScrollBar::handle { background: $outline; border-radius: 3px; margin: 2px; }
QScrollBar::handle:vertical { min-height: 32px; }
QScrollBar::handle:horizontal { min-width: 32px; }
QScrollBar::handle:hover { background: $accent; }
QScrollBar::add-line, QScrollBar::sub-line { width: 0; height: 0; border: none; }
QScrollBar::add-page, QScrollBar::sub-page { background: transparent; }
QSplitter::handle { background: $line; }
QSplitter::handle:hover { background: $accent; }
QMenuBar { background: $paper; color: $ink; padding: 2px 4px; }
QMenuBar::item { padding: 4px 10px; border-radius: 4px; background: transparent; }
QMenuBar::item:selected { background: $accent_soft; }
QStatusBar { background: $paper; color: $ink_soft; font-size: 13px; }
QStatusBar::item { border: none; }
QMenu { background: $raised; color: $ink; border: 1px solid $outline; padding: 4px; }
QMenu::item { padding: 6px 24px 6px 12px; border-radius: 4px; }
QMenu::item:selected { background: $accent_soft; }
QMenu::separator { height: 1px; background: $line; margin: 4px 8px; }
"""
"""Filled in by `Theme.stylesheet`; object roles and states are dynamic properties."""
