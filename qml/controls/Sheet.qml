// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Theme

// A sheet of paper. Its children are laid out by the user inside its padding.
//   title (reading size, muted, over the content), padding, content
Rectangle {
    id: root

    property string title: ""
    property real padding: Theme.mm(6)
    default property alias content: body.data
    readonly property real contentTop: heading.visible ? heading.y + heading.height + Theme.half : padding

    color: Theme.paper
    radius: Theme.radius
    border.width: Theme.dark ? 0 : Theme.line
    border.color: Theme.paperLine
    implicitWidth: Theme.mm(100)
    implicitHeight: contentTop + body.childrenRect.height + padding

    Label {
        id: heading

        x: root.padding
        y: root.padding - Theme.half
        width: parent.width - 2 * root.padding
        visible: root.title.length > 0
        text: root.title
        muted: true
        elide: Text.ElideRight
    }

    Item {
        id: body

        x: root.padding
        y: root.contentTop
        width: root.width - 2 * root.padding
        height: root.height - root.contentTop - root.padding
    }
}
