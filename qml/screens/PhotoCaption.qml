// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Theme

// What a photo is, on a label of paper that lies on it.
//   text, most: the widest that it may become
Rectangle {
    id: root

    property string text: ""
    property real most: Theme.mm(120)

    visible: text.length > 0
    width: Math.min(words.implicitWidth + 2 * Theme.half, most)
    height: words.implicitHeight + Theme.half
    radius: Theme.radius / 2
    color: Theme.paper

    Label {
        id: words

        anchors { left: parent.left; right: parent.right; leftMargin: Theme.half; rightMargin: Theme.half; verticalCenter: parent.verticalCenter }
        text: root.text
        wrapMode: Text.WordWrap
        maximumLineCount: 2
        elide: Text.ElideRight
    }
}
