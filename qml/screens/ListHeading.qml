// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// A heading over the lines of a list.
//   section: its words
Item {
    id: root

    required property string section
    property bool folded: false

    width: ListView.view ? ListView.view.width : implicitWidth
    height: folded ? 0 : words.implicitHeight + Theme.module
    visible: !folded

    Label {
        id: words

        anchors { left: parent.left; right: parent.right; bottom: parent.bottom; bottomMargin: Theme.line * 2 }
        text: root.section
        role: Label.Detail
        muted: true
        elide: Text.ElideRight
    }
}
