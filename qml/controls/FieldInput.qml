// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme

// The line that is typed into; calls up the touch keyboard while it has focus. Use Field.
TextInput {
    id: root

    property bool touchKeyboard: true

    color: Theme.ink
    selectionColor: Theme.accent
    selectedTextColor: Theme.accentInk
    selectByMouse: false
    clip: true
    font.family: Theme.family
    font.pixelSize: Theme.readingSize
    verticalAlignment: TextInput.AlignVCenter

    cursorDelegate: Rectangle {
        width: Theme.thickLine
        color: Theme.accent
        visible: root.cursorVisible
    }
}
