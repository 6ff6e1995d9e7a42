// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// A heading over the lines of a list. Lists take it as a component of its own file, because one
// that is bound to its creation context cannot be a section's:
//   readonly property Component heading: Qt.createComponent("ListHeading.qml")
//   section.delegate: root.heading
// A property keeps it; the list alone does not, and the program ends when the rubbish is collected.
//   section: its words
Item {
    id: root

    required property string section

    width: parent ? parent.width : words.implicitWidth
    height: words.implicitHeight + Theme.module

    Label {
        id: words

        anchors { left: parent.left; right: parent.right; bottom: parent.bottom; bottomMargin: Theme.line * 2 }
        text: root.section
        role: Label.Detail
        muted: true
        elide: Text.ElideRight
    }
}
