// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme

// The paper that is typed onto; calls up the touch keyboard while it has focus. Use NoteField.
TextEdit {
    id: root

    property bool touchKeyboard: true

    color: Theme.ink
    selectionColor: Theme.accent
    selectedTextColor: Theme.accentInk
    selectByMouse: false
    wrapMode: TextEdit.Wrap
    textFormat: TextEdit.PlainText
    font.family: Theme.family
    font.pixelSize: Theme.readingSize

    cursorDelegate: Rectangle {
        width: Theme.thickLine
        color: Theme.accent
        visible: root.cursorVisible
    }
}
