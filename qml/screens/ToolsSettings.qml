// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
pragma ComponentBehavior: Bound

import QtQuick
import Ramplight.Controls
import Ramplight.Kiosk

// The measuring tools, those that are overdue first.
//   tools;  signal wanted(int toolId): one is to be changed
Item {
    id: root

    required property ToolsView tools

    signal wanted(int toolId)

    EmptyState {
        anchors.centerIn: parent
        visible: list.count === 0
        paper: true
        title: qsTr("No tool is registered")
        hint: qsTr("Readings are taken without a tool's number until the first of its kind stands here; the record then says so.")
    }

    ListView {
        id: list

        anchors.fill: parent
        clip: true
        boundsBehavior: Flickable.DragOverBounds
        model: root.tools.tools

        delegate: SettingLine {
            required property int toolId
            required property string number
            required property string kindWords
            required property string dueWords
            required property bool overdue
            required property bool soon
            required property bool active

            width: list.width
            title: number
            detail: kindWords
            value: overdue ? qsTr("Overdue") : active ? dueWords : qsTr("left the house")
            note: overdue ? dueWords : soon ? qsTr("within 30 days") : ""
            mark: overdue ? SettingLine.Overdue : SettingLine.Plain
            muted: !active
            onTapped: root.wanted(toolId)
        }
    }
}
